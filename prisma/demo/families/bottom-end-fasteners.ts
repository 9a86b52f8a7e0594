import type { FastenerFigures } from '../spec-sheet.ts';
import { one, round, type SetFigures, set } from './single-stage-set.ts';

interface BottomEnd {
  readonly page: string;
  readonly clutchSprings: number;
  readonly clutchCoverBolts: number;
  readonly alternatorCoverBolts: number;
}

/** What both kinds of engine have outside and between their halves. */
export const bottomEndFasteners = (of: BottomEnd): readonly FastenerFigures[] =>
  (
    [
      {
        ...{ code: 'bearing-retainer-screws', name: 'Bearing retainer screws', thread: 'M6', tool: 'hex 5' },
        ...{ positions: round(4, [40, 30]), newtonMetres: 9, condition: 'locking compound' },
      },
      {
        ...{ code: 'shift-bolts', name: 'Shift star and stopper arm bolts', thread: 'M6', tool: 'hex 8' },
        ...{ positions: round(2, [22, 22]), newtonMetres: 9, condition: 'locking compound' },
      },
      {
        ...{ code: 'primary-nut', name: 'Primary gear nut', thread: 'M16x1.5', tool: 'hex 24' },
        ...{ positions: one, newtonMetres: 80, condition: 'oiled' },
      },
      {
        ...{ code: 'clutch-nut', name: 'Clutch nut', thread: 'M16x1.5', tool: 'hex 24' },
        ...{ positions: one, newtonMetres: 75 },
      },
      {
        ...{ code: 'clutch-spring-bolts', name: 'Clutch spring bolts', thread: 'M6', tool: 'hex 8' },
        ...{ positions: round(of.clutchSprings, [38, 38]), newtonMetres: 8 },
      },
      {
        ...{ code: 'clutch-cover-bolts', name: 'Clutch cover bolts', thread: 'M6', tool: 'hex 8' },
        ...{ positions: round(of.clutchCoverBolts, [85, 70]), newtonMetres: 9 },
      },
      {
        ...{ code: 'rotor-nut', name: 'Rotor nut', thread: 'M12x1.25', tool: 'hex 17' },
        ...{ positions: one, newtonMetres: 50 },
      },
      {
        ...{ code: 'alternator-cover-bolts', name: 'Alternator cover bolts', thread: 'M6', tool: 'hex 8' },
        ...{ positions: round(of.alternatorCoverBolts, [60, 60]), newtonMetres: 9 },
      },
    ] satisfies readonly SetFigures[]
  ).map((each) => set(of.page, each));

/** What a four-stroke has besides. */
export const balancerAndPumpFasteners = (page: string): readonly FastenerFigures[] => [
  set(page, {
    ...{ code: 'balancer-nut', name: 'Balancer nut', thread: 'M14x1.5', tool: 'hex 22' },
    ...{ positions: one, newtonMetres: 55 },
  }),
  set(page, {
    ...{ code: 'oil-pump-screws', name: 'Oil pump screws', thread: 'M5', tool: 'hex 4' },
    ...{ positions: round(3, [20, 20]), newtonMetres: 5 },
  }),
];

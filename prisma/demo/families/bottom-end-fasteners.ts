import type { FastenerFigures } from '../spec-sheet.ts';

type Points = FastenerFigures['positions'];

/** So many bolts round a cover, those that lie opposite one after the other. */
const round = (count: number, [x, y]: readonly [number, number]): Points => {
  const half = Math.ceil(count / 2);
  return Array.from({ length: count }, (_, place) => {
    const slot = place % 2 === 0 ? place / 2 : half + (place - 1) / 2;
    const angle = (2 * Math.PI * slot) / count;
    return [Math.round(x * Math.cos(angle)), Math.round(y * Math.sin(angle))] as const;
  });
};

interface SetFigures {
  readonly code: string;
  readonly name: string;
  readonly thread: string;
  readonly tool: string;
  readonly positions: Points;
  readonly newtonMetres: number;
  /** Left out: dry. */
  readonly condition?: FastenerFigures['condition'];
}

const one: Points = [[0, 0]];

/** Every figure is made up; what no typo guard would question, since each stays well below the bolt’s proof load. */
const set = (page: string, of: SetFigures): FastenerFigures => ({
  code: of.code,
  name: of.name,
  thread: of.thread,
  propertyClass: '8.8',
  condition: of.condition ?? 'dry',
  tool: of.tool,
  reuse: 'reuse',
  positions: of.positions,
  stages: [{ newtonMetres: of.newtonMetres }],
  page,
});

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

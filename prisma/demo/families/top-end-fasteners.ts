import type { FastenerFigures } from '../spec-sheet.ts';
import { round, type SetFigures, set } from './single-stage-set.ts';

/** What holds on a four-stroke’s top end beside head, caps and cover. */
export const fourStrokeTopEndFasteners = (page: string): readonly FastenerFigures[] =>
  (
    [
      {
        ...{ code: 'tensioner-bolts', name: 'Tensioner bolts', thread: 'M6', tool: 'hex 8' },
        ...{ positions: round(2, [18, 18]), newtonMetres: 9 },
      },
      {
        ...{ code: 'oil-feed-bolts', name: 'Oil feed banjo bolts', thread: 'M10x1.25', tool: 'hex 14' },
        ...{ positions: round(2, [40, 40]), newtonMetres: 16 },
      },
      {
        ...{ code: 'exhaust-nuts', name: 'Exhaust nuts', thread: 'M8', tool: 'hex 12' },
        ...{ positions: round(2, [30, 30]), newtonMetres: 14 },
      },
    ] satisfies readonly SetFigures[]
  ).map((each) => set(page, each));

/** What holds the reeds, whose screws would fall into the crankcase. */
export const twoStrokeTopEndFasteners = (page: string): readonly FastenerFigures[] => [
  set(page, {
    ...{ code: 'reed-screws', name: 'Reed block screws', thread: 'M5', tool: 'hex 4' },
    ...{ positions: round(4, [24, 18]), newtonMetres: 5 },
  }),
];

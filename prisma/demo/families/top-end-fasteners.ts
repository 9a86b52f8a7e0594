import type { FastenerFigures } from '../spec-sheet.ts';
import { one, round, type SetFigures, set } from './single-stage-set.ts';

/** In a thread of the head’s aluminium, pulled cold. */
const sparkPlug = (of: Pick<SetFigures, 'thread' | 'tool' | 'newtonMetres'>): SetFigures => ({
  ...of,
  ...{ code: 'spark-plug', name: 'Spark plug', propertyClass: '', positions: one },
});

const drainPlug: SetFigures = {
  ...{ code: 'drain-plug', name: 'Drain plug', thread: 'M12x1.5', tool: 'hex 17' },
  ...{ positions: one, newtonMetres: 20 },
};

const coolantDrainScrew: SetFigures = {
  ...{ code: 'coolant-drain-screw', name: 'Coolant drain screw', thread: 'M6', tool: 'hex 8' },
  ...{ positions: one, newtonMetres: 8 },
};

const adjusterNuts: SetFigures = {
  ...{ code: 'adjuster-nuts', name: 'Adjusting screw nuts', thread: 'M6x0.75', tool: 'hex 10' },
  ...{ positions: round(4, [30, 30]), newtonMetres: 10 },
};

const fourStroke: readonly SetFigures[] = [
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
  {
    ...{ code: 'filter-cover-bolts', name: 'Filter cover bolts', thread: 'M6', tool: 'hex 8' },
    ...{ positions: round(2, [28, 28]), newtonMetres: 8 },
  },
  drainPlug,
  sparkPlug({ thread: 'M10x1', tool: 'hex 16', newtonMetres: 13 }),
];

interface FourStrokeTopEnd {
  readonly page: string;
  readonly cooling: 'water' | 'air';
  readonly adjuster: 'shim' | 'screw';
}

/** What holds on a four-stroke’s top end, and drains it, beside head, caps and cover. */
export const fourStrokeTopEndFasteners = (of: FourStrokeTopEnd): readonly FastenerFigures[] =>
  [
    ...fourStroke,
    ...(of.cooling === 'water' ? [coolantDrainScrew] : []),
    ...(of.adjuster === 'screw' ? [adjusterNuts] : []),
  ].map((each) => set(of.page, each));

const reedScrews: SetFigures = {
  ...{ code: 'reed-screws', name: 'Reed block screws', thread: 'M5', tool: 'hex 4' },
  ...{ positions: round(4, [24, 18]), newtonMetres: 5 },
};

/** What holds the reeds, whose screws would fall into the crankcase; and what drains and sparks. */
export const twoStrokeTopEndFasteners = (page: string): readonly FastenerFigures[] =>
  [reedScrews, drainPlug, coolantDrainScrew, sparkPlug({ thread: 'M14x1.25', tool: 'hex 21', newtonMetres: 25 })].map(
    (each) => set(page, each),
  );

import { type FamilyFigures, limits, standardOnly } from '../spec-sheet.ts';
import type { FourStrokeFigures } from './four-stroke-figures.ts';
import { type FourStrokeSheet, fourStrokeSheet } from './four-stroke-sheet.ts';

export const haldenFigures: FourStrokeFigures = {
  bore: {
    nominal: 88,
    heights: [10, 40, 65],
    rule: 'per-level',
    limits: { standard: limits([88, 88.012], [null, 88.05]) },
    caution: 'A plated bore is never bored or stone-honed to size: it is replated or renewed.',
  },
  piston: {
    height: 9,
    limits: {
      standard: limits([87.95, 87.965], [87.92, null]),
      A: limits([87.957, 87.965], [87.925, null]),
      B: limits([87.95, 87.958], [87.92, null]),
    },
  },
  clearance: limits([0.04, 0.06], [null, 0.1]),
  ringGaps: {
    top: limits([0.3, 0.4], [0.25, 0.6]),
    second: limits([0.35, 0.45], [0.3, 0.65]),
    oil: limits([0.2, 0.6], [null, 0.9]),
  },
  endFloat: limits([0.05, 0.25], [0.03, 0.4]),
  pin: 20,
  stem: { intake: 5.5, exhaust: 5 },
  springFree: 41.2,
  springLoad: [172, null],
  lift: { intake: 9.4, exhaust: 8.9, base: 27.6 },
  journal: 22,
  chain: [127, 128.6],
  stretch: 1.2,
  chamber: { volume: 25.4, gasket: 0.6, deck: 0.1 },
  headHeight: [92, 91.8],
  lash: { intake: limits([0.1, 0.15], [0.08, 0.17]), exhaust: limits([0.17, 0.22], [0.15, 0.24]) },
  lashAt: 'Cold, at top dead centre on the compression stroke, before the cams come out.',
  compression: limits([900, 1_250], [780, null]),
  leakDown: limits([null, 8], [null, 18]),
};

export const haldenSheet: FourStrokeSheet = {
  note: 'Intake lash and crank runout as in the second printing.',
  figures: haldenFigures,
  cooling: 'water',
  cylinder: 'aluminium alloy',
  headBolt: { thread: 'M10x1.25', stages: [{ newtonMetres: 25 }, { newtonMetres: 50 }] },
  wanted: { intake: 0.13, exhaust: 0.2 },
  adjuster: { shimDiameterMm: 9.5 },
};

/** Its first printing: a wider intake lash, and a piston limit that was later put right. */
const firstPrinting: FourStrokeSheet = {
  ...haldenSheet,
  note: 'First printing.',
  figures: {
    ...haldenFigures,
    piston: { height: 9, limits: { standard: limits([87.95, 87.965], [87.91, null]) } },
    lash: { intake: limits([0.1, 0.17], [0.08, 0.19]), exhaust: haldenFigures.lash.exhaust },
    leakDown: standardOnly(null, 20),
  },
};

export const halden355: FamilyFigures = {
  code: 'H355',
  name: 'Halden 355',
  cycle: 'four-stroke',
  cooling: 'water',
  boreMm: 88,
  strokeMm: 58.5,
  sheets: [fourStrokeSheet(firstPrinting), fourStrokeSheet(haldenSheet)],
};

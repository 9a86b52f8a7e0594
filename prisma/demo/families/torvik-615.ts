import { type FamilyFigures, type LimitFigures, limits, movedBy } from '../spec-sheet.ts';
import { fourStrokeSheet } from './four-stroke-sheet.ts';
import { haldenFigures } from './halden-355.ts';

const oversizes = (standard: LimitFigures): Readonly<Record<string, LimitFigures>> => ({
  standard,
  '+0.25': movedBy(standard, 0.25),
  '+0.50': movedBy(standard, 0.5),
});

/** Air-cooled, an iron liner that may be bored to two oversizes, rockers with screw adjusters. */
export const torvik615: FamilyFigures = {
  code: 'T615',
  name: 'Torvik 615',
  cycle: 'four-stroke',
  cooling: 'air',
  boreMm: 98,
  strokeMm: 81.5,
  sheets: [
    fourStrokeSheet({
      note: '',
      figures: {
        ...haldenFigures,
        bore: {
          nominal: 98,
          heights: [15, 55, 95],
          rule: 'extremes',
          limits: oversizes(limits([98, 98.015], [null, 98.1])),
          caution: 'Bore to +0.25 or +0.50 only; hone for cross-hatch, then wash until a white cloth stays white.',
        },
        piston: { height: 14, limits: oversizes(limits([97.94, 97.96], [97.88, null])) },
        clearance: limits([0.045, 0.075], [null, 0.15]),
        ringGaps: {
          top: limits([0.35, 0.5], [0.3, 0.8]),
          second: limits([0.45, 0.6], [0.4, 0.9]),
          oil: limits([0.2, 0.7], [null, 1]),
        },
        endFloat: limits([0.1, 0.3], [0.05, 0.5]),
        pin: 22,
        stem: { intake: 6.5, exhaust: 6.5 },
        springFree: 44.6,
        springLoad: [205, null],
        lift: { intake: 8.6, exhaust: 8.2, base: 31.5 },
        journal: 26,
        chain: [158.8, 160.6],
        stretch: 1.1,
        chamber: { volume: 62.5, gasket: 1, deck: 0.3 },
        headHeight: [104, 103.75],
        lash: { intake: limits([0.08, 0.12], [0.05, 0.15]), exhaust: limits([0.13, 0.17], [0.1, 0.2]) },
        lashAt: 'Cold, at top dead centre on the compression stroke.',
        compression: limits([720, 1_000], [600, null]),
        leakDown: limits([null, 10], [null, 20]),
      },
      cooling: 'air',
      cylinder: 'grey cast iron',
      headBolt: { thread: 'M10', stages: [{ newtonMetres: 22 }, { newtonMetres: 44 }] },
      wanted: { intake: 0.1, exhaust: 0.15 },
      adjuster: { screwPitchMm: 0.75 },
    }),
  ],
};

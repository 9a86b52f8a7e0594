import { type FamilyFigures, limits } from '../spec-sheet.ts';
import { fourStrokeSheet } from './four-stroke-sheet.ts';
import { haldenFigures, haldenSheet } from './halden-355.ts';

/** The Halden 355 with a 92 mm cylinder, and smaller buckets in its head. */
export const halden388: FamilyFigures = {
  code: 'H388',
  name: 'Halden 388',
  cycle: 'four-stroke',
  cooling: 'water',
  boreMm: 92,
  strokeMm: 58.5,
  sheets: [
    fourStrokeSheet({
      ...haldenSheet,
      note: 'For the 92 mm cylinder.',
      figures: {
        ...haldenFigures,
        bore: { ...haldenFigures.bore, nominal: 92, limits: { standard: limits([92, 92.012], [null, 92.05]) } },
        piston: {
          height: 10,
          limits: {
            standard: limits([91.942, 91.957], [91.91, null]),
            A: limits([91.949, 91.957], [91.915, null]),
            B: limits([91.942, 91.95], [91.91, null]),
          },
        },
        clearance: limits([0.045, 0.068], [null, 0.11]),
        ringGaps: { ...haldenFigures.ringGaps, top: limits([0.32, 0.42], [0.27, 0.62]) },
        chamber: { volume: 27.2, gasket: 0.6, deck: 0.1 },
        compression: limits([950, 1_300], [820, null]),
      },
      adjuster: { shimDiameterMm: 7.5 },
    }),
  ],
};

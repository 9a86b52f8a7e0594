import { SpecSheetDocument } from '#contracts/spec-sheets.ts';
import type { SpecSheet } from '#contracts/specs.ts';
import { documentShape } from '#domain/spec-sheet/document.ts';
import type { PlaceOnSheet } from './sheet.ts';

/** 1e-9 of the trade's small number as millionths: 23 000 → "23", 11 500 → "11.5". */
const millionths = (billionths: number): string => {
  const whole = Math.floor(billionths / 1000);
  const part = String(billionths % 1000)
    .padStart(3, '0')
    .replace(/0+$/, '');
  return part === '' ? String(whole) : `${whole}.${part}`;
};

const billionthsOf = (perKelvin: number): number => Math.round(perKelvin * 1e9);

const placeInDocument = ({ alphaPerKelvin, alphaUncertaintyPerKelvin, ...place }: PlaceOnSheet) => ({
  ...place,
  expansion:
    alphaPerKelvin === undefined
      ? null
      : {
          value: millionths(billionthsOf(alphaPerKelvin)),
          uncertainty: millionths(billionthsOf(alphaUncertaintyPerKelvin)),
        },
});

const hasFigure = ({ standard, service }: SpecSheet['dimensions'][number]['limits'][number]): boolean =>
  [standard.low, standard.high, service.low, service.high].some((bound) => bound !== null);

/**
 * A sheet of which only the rows are known, written down in our shape: figures in the units and with the decimals that
 * its dimensions are printed in.
 */
export function writtenDown(
  sheet: SpecSheet,
  family: { readonly code: string; readonly name: string },
  places: readonly PlaceOnSheet[],
): SpecSheetDocument {
  return SpecSheetDocument.parse({
    shape: documentShape,
    family,
    note: sheet.note,
    figuresInvented: sheet.figuresInvented,
    places: places.map(placeInDocument),
    dimensions: sheet.dimensions.map(({ placeCode, limits, ...dimension }) => ({
      ...dimension,
      place: placeCode,
      limits: limits.filter(hasFigure),
    })),
    fasteners: sheet.fasteners.map(({ positions, stages, ...set }) => ({
      ...set,
      positions: positions.map(({ x, y }) => ({ x, y })),
      stages: stages.map(({ torque, angle }) => ({ torque, angle })),
    })),
    ringSeparation: sheet.ringSeparation,
    railOffset: sheet.railOffset,
    rings: sheet.rings,
    ringZones: sheet.ringZones,
    valves: sheet.valves.map(({ dimensionCode, ...valve }) => ({ ...valve, dimension: dimensionCode })),
    proofs: sheet.proofs.map(({ dimensionCode, ...proof }) => ({ ...proof, dimension: dimensionCode })),
  } satisfies { readonly [field in keyof SpecSheetDocument]: unknown });
}

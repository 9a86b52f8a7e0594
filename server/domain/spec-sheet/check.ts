import { checkAssembly } from './check-assembly.ts';
import { checkDimensions } from './check-dimensions.ts';
import type { CheckedPlace, CheckedSheet } from './checked.ts';
import type { PrintedPlace, SheetDocument } from './document.ts';
import { type Faults, gatherFaults, type SheetFault, tellTwice } from './faults.ts';

export type SheetChecked =
  | { readonly ok: true; readonly sheet: CheckedSheet }
  /** In the order in which the sheet is read; never empty. */
  | { readonly ok: false; readonly faults: readonly SheetFault[] };

const expansionForm = /^\d{1,3}(?:[.,](\d{1,3}))?$/;

/** "23.5" millionths per kelvin → 23 500e-9. */
function billionths(text: string, pointer: string, faults: Faults): number {
  const trimmed = text.trim();
  const match = expansionForm.exec(trimmed);
  if (match === null) {
    faults.add(pointer, `"${text}" is no expansion in millionths per kelvin, such as 23.0.`);
    return 0;
  }
  const [whole = '0'] = trimmed.split(/[.,]/);
  return Number(whole) * 1000 + Number((match[1] ?? '').padEnd(3, '0'));
}

function checkPlace(place: PrintedPlace, pointer: string, faults: Faults): CheckedPlace {
  const { expansion, ...rest } = place;
  if (place.name.trim() === '') faults.add(`${pointer}/name`, 'is empty');
  if (expansion === null) return { ...rest, alphaPpb: 0, alphaUPpb: 0 };
  const alphaPpb = billionths(expansion.value, `${pointer}/expansion/value`, faults);
  return {
    ...rest,
    alphaPpb,
    alphaUPpb: billionths(expansion.uncertainty, `${pointer}/expansion/uncertainty`, faults),
  };
}

/**
 * Reads a spec sheet as it is written down into whole base units of each kind (nm, µN·m, Pa, mN, µ°, mm³, ppm, mK).
 * What is no whole number of them (1/128 in, a psi) is rounded to the nearest; the digits of the source stay in the
 * document. Errors: every figure that can't be read or is negative, limits that cross, a unit that is unknown or of
 * another kind, a method that names a missing dimension, one of another kind, or one that is worked out itself (so a
 * circle of differences too), a bore without heights and axes, a code that is empty or there twice, a place or a
 * dimension that isn't on the sheet; each with the JSON pointer of its field.
 */
export function checkSheet(document: SheetDocument): SheetChecked {
  const faults = gatherFaults();
  tellTwice(
    document.places.map(({ code }) => code),
    faults,
    (index) => `/places/${index}/code`,
  );
  const places = document.places.map((place, index) => checkPlace(place, `/places/${index}`, faults));
  const dimensions = checkDimensions(
    { dimensions: document.dimensions, places: new Set(places.map(({ code }) => code)) },
    faults,
  );
  const rest = checkAssembly(document, faults);
  if (faults.found.length > 0) return { ok: false, faults: faults.found };
  return { ok: true, sheet: { places, dimensions, ...rest } };
}

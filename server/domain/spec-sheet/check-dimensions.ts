import type { Method } from '#domain/metrology/dimension.ts';
import { findUnitCode, unitOf, unitsOfKind } from '#domain/units/unit-table.ts';
import { checkLimits, checkPlausible } from './check-limits.ts';
import { checkMethod, checkReferences } from './check-method.ts';
import type { CheckedDimension, CheckedPosition } from './checked.ts';
import type { PrintedDimension, PrintedPosition } from './document.ts';
import { type Faults, readPrinted, tellTwice } from './faults.ts';

type Sheet = { readonly dimensions: readonly PrintedDimension[]; readonly places: ReadonlySet<string> };
type At = { readonly faults: Faults; readonly pointer: string };

const tellUnit = ({ unit, kind }: PrintedDimension, { faults, pointer }: At): void => {
  const code = findUnitCode(unit);
  const choice = `For a ${kind} use one of ${unitsOfKind(kind).join(', ')}.`;
  if (code === undefined) faults.add(`${pointer}/unit`, `"${unit}" is no unit known here. ${choice}`);
  else if (unitOf(code).kind !== kind) faults.add(`${pointer}/unit`, `${unit} does not measure a ${kind}. ${choice}`);
};

const checkPosition = ({ height, ...rest }: PrintedPosition, { faults, pointer }: At): CheckedPosition => ({
  ...rest,
  heightNm:
    height === null ? null : (readPrinted(height, { kind: 'length', pointer: `${pointer}/height`, faults }) ?? null),
});

type Checked = { readonly dimension: CheckedDimension; readonly method: Method };

function checkDimension(of: PrintedDimension, { dimensions, places }: Sheet, at: At): Checked {
  const { faults, pointer } = at;
  if (of.name.trim() === '') faults.add(`${pointer}/name`, 'is empty');
  if (!places.has(of.place)) faults.add(`${pointer}/place`, `There is no place "${of.place}" on this sheet.`);
  tellUnit(of, at);
  const { method, scale, stated } = checkMethod({ of, dimensions, at });
  tellTwice(
    of.positions.map(({ code }) => code),
    faults,
    (index) => `${pointer}/positions/${index}/code`,
  );
  const dimension: CheckedDimension = {
    ...of,
    scale,
    stated,
    ...checkPlausible(of, at),
    positions: of.positions.map((position, index) =>
      checkPosition(position, { faults, pointer: `${pointer}/positions/${index}` }),
    ),
    limits: checkLimits(of, at),
  };
  return { dimension, method };
}

/** The dimensions in base units. Tells codes that are there twice, units, methods, positions and limits that can't be. */
export function checkDimensions(sheet: Sheet, faults: Faults): readonly CheckedDimension[] {
  tellTwice(
    sheet.dimensions.map(({ code }) => code),
    faults,
    (index) => `/dimensions/${index}/code`,
  );
  const checked = sheet.dimensions.map((dimension, index) =>
    checkDimension(dimension, sheet, { faults, pointer: `/dimensions/${index}` }),
  );
  checkReferences(
    sheet.dimensions,
    checked.map(({ method }) => method),
    faults,
  );
  return checked.map(({ dimension }) => dimension);
}

import { type ParsedQuantity, parseQuantity } from '#domain/units/parse-quantity.ts';
import type { QuantityKind } from '#domain/units/quantity.ts';
import { unitsOfKind } from '#domain/units/unit-table.ts';
import type { Printed } from './document.ts';

/** What is wrong with a spec sheet, and where in it: a JSON pointer. */
export type SheetFault = { readonly pointer: string; readonly detail: string };

/** Where faults are gathered while a sheet is gone through. */
export type Faults = { readonly found: readonly SheetFault[]; readonly add: (pointer: string, detail: string) => void };

export function gatherFaults(): Faults {
  const found: SheetFault[] = [];
  return { found, add: (pointer, detail) => found.push({ pointer, detail }) };
}

type Unread = Extract<ParsedQuantity<QuantityKind>, { ok: false }>;

const wordsFor = (unread: Unread, { value, unit }: Printed, kind: QuantityKind): string => {
  switch (unread.reason) {
    case 'unknown-unit':
      return `"${unit}" is no unit known here. For a ${kind} use one of ${unitsOfKind(kind).join(', ')}.`;
    case 'unit-of-another-kind':
      return `${unit} does not measure a ${kind}. Use one of ${unitsOfKind(kind).join(', ')}.`;
    case 'fraction-not-allowed':
      return `"${value}" is a fraction; fractions are read in inches only.`;
    case 'below-absolute-zero':
      return `${value} ${unit} is below absolute zero.`;
    case 'too-large':
      return `${value} ${unit} is too large.`;
    case 'ambiguous-separator':
    case 'not-a-number':
      return value.trim() === '' ? 'is empty' : `"${value}" is not a number that can be read one way only.`;
  }
};

/** Reads a printed figure into base units of the kind; what can't be read is told, at the field that is to blame. */
export function readPrinted(
  printed: Printed,
  of: { readonly kind: QuantityKind; readonly pointer: string; readonly faults: Faults },
): number | undefined {
  const parsed = parseQuantity(printed.value, printed.unit, of.kind);
  if (parsed.ok) return parsed.value;
  const isUnit = parsed.reason === 'unknown-unit' || parsed.reason === 'unit-of-another-kind';
  of.faults.add(`${of.pointer}/${isUnit ? 'unit' : 'value'}`, wordsFor(parsed, printed, of.kind));
  return undefined;
}

/** Tells of every code that is empty, or that stands a second time in its list. */
export function tellTwice(codes: readonly string[], faults: Faults, at: (index: number) => string): void {
  const seen = new Set<string>();
  for (const [index, code] of codes.entries()) {
    if (code.trim() === '') faults.add(at(index), 'is empty');
    else if (code !== code.trim()) faults.add(at(index), `"${code}" begins or ends with a blank.`);
    else if (seen.has(code)) faults.add(at(index), `"${code}" is there twice.`);
    seen.add(code);
  }
}

import { formatQuantity, shortest } from '#domain/units/format-quantity.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { unitOf, unitsOfKind } from '#domain/units/unit-table.ts';
import type { BoreSize } from '../bore-comparison.ts';
import type { LiftPoint } from '../valve-lift.ts';
import { type Input, type Inputs, kindOfSort, type ValuesOf } from './calculation.ts';
import type { InputFault } from './faults.ts';

/** A quantity as it was typed. */
export interface GivenQuantity {
  readonly value: string;
  readonly unit: string;
}
export interface GivenLift {
  readonly at: GivenQuantity;
  readonly lift: GivenQuantity;
}
export interface GivenBore {
  readonly name: string;
  readonly bore: GivenQuantity;
  readonly boreMost?: GivenQuantity | undefined;
  readonly pistonLeast?: GivenQuantity | undefined;
  readonly pistonMost?: GivenQuantity | undefined;
}
/** Inputs by name as somebody gave them, not yet read. */
export type Given = Readonly<
  Record<string, GivenQuantity | number | readonly GivenLift[] | readonly GivenBore[] | undefined>
>;

type Read<Value> = { readonly value: Value } | { readonly faults: readonly InputFault[] };
const fault = (field: string, reason: InputFault['reason'], bound?: string): { faults: InputFault[] } => ({
  faults: [{ field, reason, ...(bound === undefined ? {} : { bound }) }],
});

const anyLength: Input = { sort: 'length', optional: false, least: 0, most: 10_000_000_000, above: false };
const liftAngle: Input = { sort: 'angle', optional: false, least: -360_000_000, most: 360_000_000, above: false };
const fewestLines = 3;
const mostLines = 400;
const mostBores = 60;

/**
 * Reads every input of a calculation into whole base units: a figure that is no number, a unit of another kind, one out
 * of its bounds, a missing one or one that isn't asked for is named by its field. All faults at once.
 */
export function readInputs<I extends Inputs>(
  inputs: I,
  given: Given,
):
  | { readonly ok: true; readonly values: ValuesOf<I> }
  | { readonly ok: false; readonly faults: readonly InputFault[] } {
  const faults: InputFault[] = [];
  const values: Record<string, unknown> = {};
  for (const field of Object.keys(given)) {
    if (!Object.hasOwn(inputs, field)) faults.push({ field, reason: 'unknown' });
  }
  for (const [field, input] of Object.entries(inputs)) {
    const read = readInput(field, input, given[field]);
    if ('faults' in read) faults.push(...read.faults);
    else values[field] = read.value;
  }
  return faults.length > 0 ? { ok: false, faults } : { ok: true, values: values as ValuesOf<I> };
}

function readInput(field: string, input: Input, given: Given[string]): Read<unknown> {
  if (given === undefined) {
    if (input.usual !== undefined) return { value: Number(input.usual) };
    return input.optional ? { value: undefined } : fault(field, 'missing');
  }
  if (typeof given === 'number')
    return kindOfSort(input.sort) ? fault(field, 'unit-wrong') : readNumber(field, input, given);
  if (!('value' in given)) {
    return input.sort === 'bores'
      ? readBores(field, given as readonly GivenBore[])
      : readLifts(field, given as readonly GivenLift[]);
  }
  return readQuantity(field, input, given);
}

function readNumber(field: string, input: Input, given: number): Read<number> {
  if (!Number.isFinite(given)) return fault(field, 'not-a-number');
  if (input.sort === 'count' && !Number.isInteger(given)) return fault(field, 'not-whole');
  return within(field, input, { value: given, written: (bound) => String(bound) });
}

function readQuantity(field: string, input: Input, given: GivenQuantity): Read<number> {
  const kind = kindOfSort(input.sort);
  if (kind === undefined) return fault(field, 'not-a-number');
  const parsed = parseQuantity(given.value, given.unit, kind);
  if (!parsed.ok) {
    const units = unitsOfKind(kind).join(', ');
    const wrongUnit = parsed.reason === 'unknown-unit' || parsed.reason === 'unit-of-another-kind';
    return wrongUnit ? fault(field, 'unit-wrong', units) : fault(field, 'not-a-number');
  }
  const unit = unitsOfKind(kind).find((code) => code === given.unit) ?? unitsOfKind(kind)[0];
  const written = (bound: number) =>
    unit === undefined ? String(bound) : `${shortest(formatQuantity(bound, unit, 4), 0)} ${unitOf(unit).symbol}`.trim();
  return within(field, input, { value: parsed.value, written });
}

function within(
  field: string,
  input: Input,
  { value, written }: { readonly value: number; readonly written: (bound: number) => string },
): Read<number> {
  if (input.above && value <= input.least) return fault(field, 'not-above', written(input.least));
  if (value < input.least) return fault(field, 'too-small', written(input.least));
  if (value > input.most) return fault(field, 'too-large', written(input.most));
  return { value };
}

function readLifts(field: string, given: readonly GivenLift[]): Read<readonly LiftPoint[]> {
  if (given.length < fewestLines) return fault(field, 'too-few-lines', String(fewestLines));
  if (given.length > mostLines) return fault(field, 'too-many-lines', String(mostLines));
  const faults: InputFault[] = [];
  const points: LiftPoint[] = [];
  for (const [index, line] of given.entries()) {
    const at = readQuantity(`${field}/${index}/at`, liftAngle, line.at);
    const lift = readQuantity(`${field}/${index}/lift`, anyLength, line.lift);
    if ('faults' in at) faults.push(...at.faults);
    if ('faults' in lift) faults.push(...lift.faults);
    if ('faults' in at || 'faults' in lift) continue;
    const before = points.at(-1);
    if (before !== undefined && at.value <= before.at)
      faults.push({ field: `${field}/${index}/at`, reason: 'out-of-order' });
    points.push({ at: at.value as LiftPoint['at'], lift: nanometres(lift.value) });
  }
  return faults.length > 0 ? { faults } : { value: points };
}

function readBores(field: string, given: readonly GivenBore[]): Read<readonly BoreSize[]> {
  if (given.length === 0) return fault(field, 'too-few-lines', '1');
  if (given.length > mostBores) return fault(field, 'too-many-lines', String(mostBores));
  const faults: InputFault[] = [];
  const sizes = given.map((line, index): BoreSize => {
    const read = (name: 'bore' | 'boreMost' | 'pistonLeast' | 'pistonMost') => {
      const one = line[name];
      if (one === undefined) return undefined;
      const figure = readQuantity(`${field}/${index}/${name}`, { ...anyLength, above: true }, one);
      if ('faults' in figure) faults.push(...figure.faults);
      return 'faults' in figure ? undefined : nanometres(figure.value);
    };
    const bore = read('bore') ?? nanometres(0);
    const [boreMost, pistonLeast, pistonMost] = [read('boreMost') ?? bore, read('pistonLeast'), read('pistonMost')];
    const upsideDown = pistonLeast !== undefined && pistonMost !== undefined && pistonMost < pistonLeast;
    if (boreMost < bore) faults.push({ field: `${field}/${index}/boreMost`, reason: 'below-the-lower' });
    if (upsideDown) faults.push({ field: `${field}/${index}/pistonMost`, reason: 'below-the-lower' });
    return { name: line.name, bore, boreMost, pistonLeast, pistonMost };
  });
  return faults.length > 0 ? { faults } : { value: sizes };
}

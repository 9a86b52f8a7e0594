import type { Input } from '#domain/build/calculations/calculation.ts';
import { type CalculationKind, calculationKinds, inputsOf } from '#domain/build/calculations/kinds.ts';
import type { Given, GivenBore, GivenLift } from '#domain/build/calculations/reading.ts';

/** What stands in one field: the text as it was typed, and the unit it is meant in. */
export interface Entry {
  readonly text: string;
  readonly unit: string;
}
/** Fields by the name of their input: one that two calculations share is keyed once. */
export type Entries = Readonly<Record<string, Entry>>;

const lengths = ['mm', 'in'] as const;
const liquids = ['mL', 'L', 'cm3', 'in3', 'floz-us', 'qt-us', 'gal-us', 'floz-imp', 'pt-imp', 'gal-imp'] as const;
const volumes = ['cm3', 'in3', 'mL'] as const;
const ofLiquids: Readonly<Record<string, string>> = { fuel: 'L', oil: 'mL', holds: 'L', volume: 'mL' };

/** The units that a field offers, its usual one first; none for a plain number. */
export function unitsFor(code: string, { sort }: Input): readonly string[] {
  if (sort === 'length' || sort === 'lift-table' || sort === 'bores') return lengths;
  if (sort === 'angle') return ['deg'];
  if (sort !== 'volume') return [];
  const usual = ofLiquids[code];
  return usual === undefined ? volumes : [usual, ...liquids.filter((unit) => unit !== usual)];
}

export function entryOf(entries: Entries, code: string, input: Input): Entry {
  return entries[code] ?? { text: input.usual ?? '', unit: unitsFor(code, input)[0] ?? '' };
}

const numberOf = (text: string): number => {
  const plain = text.trim().replace(',', '.').replace('−', '-');
  return /^[+-]?(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : Number.NaN;
};

/** A pasted table: two columns, set apart by spaces, a tab or a semicolon. */
export function liftsOf({ text, unit }: Entry): readonly GivenLift[] {
  return text
    .split('\n')
    .filter((line) => line.trim() !== '')
    .map((line) => {
      const [at = '', lift = ''] = line.trim().split(/[;\t ]+/);
      return { at: { value: at, unit: 'deg' }, lift: { value: lift, unit } };
    });
}

export const sizeParts = ['name', 'bore', 'boreMost', 'pistonLeast', 'pistonMost'] as const;
export type SizePart = (typeof sizeParts)[number];
export type SizeRow = Readonly<Record<SizePart, string>>;

/** Sizes stand in one text, a line for each, so that a link carries them like everything else. */
export const sizeRows = (text: string): readonly SizeRow[] =>
  text === ''
    ? []
    : text.split('\n').map((line) => {
        const [name = '', bore = '', boreMost = '', pistonLeast = '', pistonMost = ''] = line.split(';');
        return { name, bore, boreMost, pistonLeast, pistonMost };
      });
export const sizeText = (rows: readonly SizeRow[]): string =>
  rows.map((row) => sizeParts.map((part) => row[part].replace(/[;\n]/g, ' ')).join(';')).join('\n');

function boresOf({ text, unit }: Entry): readonly GivenBore[] {
  return sizeRows(text)
    .filter(({ bore }) => bore.trim() !== '')
    .map(({ name, ...parts }, index) => {
      const optional = (part: 'boreMost' | 'pistonLeast' | 'pistonMost') =>
        parts[part].trim() === '' ? {} : { [part]: { value: parts[part], unit } };
      return {
        name: name.trim() === '' ? String(index + 1) : name.trim(),
        bore: { value: parts.bore, unit },
        ...optional('boreMost'),
        ...optional('pistonLeast'),
        ...optional('pistonMost'),
      };
    });
}

/** What a calculation is given: every field that isn't empty, as it was typed. */
export function givenOf(kind: CalculationKind, entries: Entries): Given {
  const given: Record<string, Given[string]> = {};
  for (const [code, input] of Object.entries(inputsOf(kind))) {
    const entry = entryOf(entries, code, input);
    if (entry.text.trim() === '') continue;
    if (input.sort === 'lift-table') given[code] = liftsOf(entry);
    else if (input.sort === 'bores') given[code] = boresOf(entry);
    else if (input.sort === 'number' || input.sort === 'count') given[code] = numberOf(entry.text);
    else given[code] = { value: entry.text, unit: entry.unit };
  }
  return given;
}

/** The fields of one calculation as a link carries them: "88.0 mm". */
export function searchOf(kind: CalculationKind, entries: Entries): Readonly<Record<string, string>> {
  return Object.fromEntries(
    Object.entries(inputsOf(kind)).flatMap(([code, input]) => {
      const entry = entries[code];
      if (entry === undefined || entry.text.trim() === '' || entry.text === input.usual) return [];
      return [[code, entry.unit === '' ? entry.text : `${entry.text} ${entry.unit}`]];
    }),
  );
}

/** The fields that a link brought along, of whichever calculation asks for them. */
export function entriesOf(search: Readonly<Record<string, unknown>>): Entries {
  const entries: Record<string, Entry> = {};
  for (const kind of calculationKinds) {
    for (const [code, input] of Object.entries(inputsOf(kind))) {
      const brought = search[code];
      if (typeof brought !== 'string' && typeof brought !== 'number') continue;
      const text = String(brought).slice(0, 20_000);
      const units = unitsFor(code, input);
      const end = text.lastIndexOf(' ');
      const unit = text.slice(end + 1);
      entries[code] =
        end >= 0 && units.includes(unit) ? { text: text.slice(0, end), unit } : { text, unit: units[0] ?? '' };
    }
  }
  return entries;
}

/** One reading of a gauge study. Parts, people and trials by any code; values in one unit of one kind. */
export type StudyReading = {
  readonly part: string;
  readonly person: string;
  readonly trial: string;
  readonly value: number;
};

/** What keeps readings from being a whole study. */
export type TableFault =
  | { readonly reason: 'too-few'; readonly of: 'parts' | 'people' | 'trials'; readonly least: number }
  | { readonly reason: 'missing-reading'; readonly part: string; readonly person: string; readonly trial: string }
  | { readonly reason: 'read-twice'; readonly part: string; readonly person: string; readonly trial: string }
  | { readonly reason: 'not-a-number'; readonly part: string; readonly person: string; readonly trial: string };

const keyOf = (part: string, person: string, trial: string): string => JSON.stringify([part, person, trial]);

const distinctOf = (codes: readonly string[]): readonly string[] => [...new Set(codes)];

/** Every reading in its cell. */
export type StudyTable = {
  readonly parts: readonly string[];
  readonly people: readonly string[];
  readonly trials: readonly string[];
  /** [part][person][trial], less the first value. */
  readonly cells: readonly (readonly (readonly number[])[])[];
};

/**
 * Readings set out as parts × people × trials. Errors: fewer than two parts or trials, nobody, a combination not read,
 * read twice or no number.
 */
export const tableOf = (
  readings: readonly StudyReading[],
): { readonly ok: true; readonly table: StudyTable } | { readonly ok: false; readonly fault: TableFault } => {
  const values = new Map<string, number>();
  for (const { part, person, trial, value } of readings) {
    if (!Number.isFinite(value)) return { ok: false, fault: { reason: 'not-a-number', part, person, trial } };
    const key = keyOf(part, person, trial);
    if (values.has(key)) return { ok: false, fault: { reason: 'read-twice', part, person, trial } };
    values.set(key, value);
  }
  const parts = distinctOf(readings.map(({ part }) => part));
  const people = distinctOf(readings.map(({ person }) => person));
  const trials = distinctOf(readings.map(({ trial }) => trial));
  for (const [of, codes, least] of [
    ['parts', parts, 2] as const,
    ['people', people, 1] as const,
    ['trials', trials, 2] as const,
  ]) {
    if (codes.length < least) return { ok: false, fault: { reason: 'too-few', of, least } };
  }
  const first = readings[0]?.value ?? 0;
  const cells: number[][][] = [];
  for (const part of parts) {
    const row: number[][] = [];
    for (const person of people) {
      const cell: number[] = [];
      for (const trial of trials) {
        const value = values.get(keyOf(part, person, trial));
        if (value === undefined) return { ok: false, fault: { reason: 'missing-reading', part, person, trial } };
        cell.push(value - first);
      }
      row.push(cell);
    }
    cells.push(row);
  }
  return { ok: true, table: { parts, people, trials, cells } };
};

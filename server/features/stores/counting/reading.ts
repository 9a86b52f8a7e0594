import type { CountAccuracy, CountLine, CountListed, CountSheet, CountState, CountsQuery } from '#contracts/counts.ts';
import { lineStanding, mayBeTold } from '#domain/stock/counting.ts';
import { csvFileOf } from '#platform/csv-file.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { guarded } from '#platform/spreadsheet-text.ts';
import { type Priced, pricedFor } from '../supply/money.ts';
import {
  findLines,
  findMonths,
  findSettled,
  findSheet,
  findSheets,
  type LineRead,
  type SheetListed,
  type SheetRead,
} from './reading-queries.ts';

/** For whom a sheet is read: blind lines show a count to the one who keys it, in their own round. */
export interface Reader {
  readonly id: string;
  readonly seesMoney: boolean;
}

export async function countSheet(sql: Sql, id: string, reader: Reader): Promise<CountSheet> {
  const sheet = found(await findSheet(sql, id), 'such count sheet');
  const [lines, priced] = await Promise.all([findLines(sql, id), pricedFor(sql, reader.seesMoney)]);
  const counts = sheet.round.handedInAt === null && sheet.round.counter.id === reader.id;
  return { ...sheet, state: stateOf(sheet, lines), lines: lines.map((line) => lineShown(line, { counts, priced })) };
}

const isOpen = (line: LineRead): boolean => ['to count', 'to count again'].includes(lineStanding(line));

function stateOf(sheet: SheetRead, lines: readonly LineRead[]): CountState {
  if (sheet.givenUp !== null) return 'given up';
  if (sheet.bins.every(({ endedAt }) => endedAt !== null)) return 'done';
  if (sheet.round.handedInAt === null) return 'counting';
  return lines.some(isOpen) ? 'to recount' : 'to decide';
}

function lineShown(line: LineRead, { counts, priced }: { counts: boolean; priced: Priced }): CountLine {
  const standing = lineStanding(line);
  const keyed = isOpen(line) && counts ? line.keyed : null;
  return {
    id: line.id,
    bin: line.bin,
    part: line.part,
    unit: line.unit,
    lotCode: line.lotCode,
    serial: line.serial,
    condition: line.condition,
    found: line.found,
    state: keyed === null ? standing : 'counted',
    counted: keyed,
    seen: mayBeTold(standing) ? seenOf(line, priced) : null,
  };
}

function seenOf({ counts, moved, settlement }: LineRead, priced: Priced): CountLine['seen'] {
  const last = counts.at(-1);
  return {
    counts: [...counts],
    difference: settlement?.difference ?? (last === undefined ? 0 : last.counted - last.books),
    moved,
    settled:
      settlement === null
        ? null
        : {
            how: settlement.how,
            reason: settlement.reason,
            value: priced(settlement.valueMinor),
            by: settlement.by,
            at: settlement.at,
          },
  };
}

/** How many lines the next round would be about. */
export async function linesToRecount(sql: Sql, id: string): Promise<number> {
  return (await findLines(sql, id)).filter(isOpen).length;
}

export async function countSheets(
  sql: Sql,
  query: CountsQuery,
): Promise<{ items: CountListed[]; next: string | null }> {
  const limit = query.limit ?? 30;
  const after = query.after === undefined ? null : Number(query.after);
  if (after !== null && !(Number.isSafeInteger(after) && after > 0 && after < 2 ** 31)) {
    throw new ProblemError('invalid-request', 'Pass the next of the last reply as after.', {
      errors: [{ pointer: '/after', detail: 'is no number of a sheet' }],
    });
  }
  const open = query.open === undefined ? null : query.open === 'true';
  const rows = await findSheets(sql, { after, open, limit: limit + 1 });
  const items = rows.slice(0, limit);
  const last = items.at(-1);
  return { items: items.map(listed), next: rows.length > limit && last !== undefined ? String(last.number) : null };
}

function listed({ givenUp, ended, open, again, ...sheet }: SheetListed): CountListed {
  const going = open ? 'counting' : again > 0 ? 'to recount' : 'to decide';
  return { ...sheet, state: givenUp ? 'given up' : ended ? 'done' : going };
}

export async function countAccuracy(sql: Sql, seesMoney: boolean): Promise<CountAccuracy> {
  const [months, priced] = await Promise.all([findMonths(sql), pricedFor(sql, seesMoney)]);
  return { months: months.map(({ up, down, ...month }) => ({ ...month, up: priced(up), down: priced(down) })) };
}

const columns = [
  'sheet',
  'bin',
  'part',
  'name',
  'lot',
  'serial',
  'books',
  'counted',
  'difference',
  'value_minor',
  'how',
  'reason',
  'round',
  'counted_by',
  'settled_by',
  'settled_at',
] as const;

/** Every line that a count has settled: what is still blind is in no file. */
export async function countsFile(sql: Sql): Promise<string> {
  const rows = await findSettled(sql);
  return csvFileOf(
    columns,
    rows.map((row) => ({
      sheet: String(row.sheet),
      bin: guarded(row.bin),
      part: guarded(row.number),
      name: guarded(row.name),
      lot: guarded(row.lot),
      serial: guarded(row.serial ?? ''),
      books: String(row.books),
      counted: String(row.counted),
      difference: String(row.difference),
      value_minor: String(row.valueMinor),
      how: row.how,
      reason: guarded(row.reason),
      round: String(row.rounds),
      counted_by: guarded(row.countedBy),
      settled_by: guarded(row.settledBy),
      settled_at: row.settledAt,
    })),
  );
}

import type { RowFault } from '#platform/csv-file.ts';
import { readRows, refuseFaults } from '../books/cells.ts';

/** Those of the file of what comes, as it goes out and as its days come in. */
export const expectedColumns = [
  'vendor',
  'order',
  'number',
  'name',
  'job',
  'quantity',
  'received',
  'unit',
  'pack',
  'promised_on',
  'late',
  'said',
  'line',
] as const;
const most = 20_000;
/** In a cell: their day holds no longer. An empty cell leaves it as it was. */
const takenBack = '-';

interface LineToCome {
  readonly id: string;
  readonly order: number | null;
  readonly number: string;
}

export interface DayRow {
  readonly row: number;
  readonly lineId: string;
  /** Null: they gave none any more. */
  readonly promisedOn: string | null;
  readonly said: string;
}

/** Finds a row's line: by its id, or by its order and part where they name one alone; else what is wrong, and where. */
function finder(lines: readonly LineToCome[]) {
  const byId = new Set(lines.map(({ id }) => id));
  const byName = new Map<string, string[]>();
  for (const { id, order, number } of lines) {
    const key = `${order ?? ''} ${number.toLowerCase()}`;
    byName.set(key, [...(byName.get(key) ?? []), id]);
  }
  return (id: string, order: string, number: string): string | readonly ['line' | 'number', string] => {
    if (id !== '') return byId.has(id) ? id : ['line', `"${id}" is no line of which something is to come.`];
    const found = byName.get(`${order} ${number.toLowerCase()}`) ?? [];
    const [first] = found;
    if (first === undefined) return ['number', `of "${number}" nothing is to come on order ${order}.`];
    return found.length === 1 ? first : ['number', `"${number}" is on order ${order} more than once: name its line.`];
  };
}

/** Reads a file of days on which purchase lines come; every bad row and column is named, and then nothing is kept. */
export function readDaysFile(text: string, lines: readonly LineToCome[]): readonly DayRow[] {
  const find = finder(lines);
  const seen = new Map<string, number>();
  const form = { columns: expectedColumns, required: ['promised_on'] as const, mostRows: most };
  return readRows(text, form, (cells, { row }): readonly DayRow[] => {
    const isNone = cells.text('promised_on', 20) === takenBack;
    const promisedOn = isNone ? null : cells.day('promised_on');
    const said = cells.text('said', 300);
    const lineId = find(cells.text('line', 40), cells.text('order', 12), cells.text('number', 40));
    if (typeof lineId !== 'string') {
      cells.fault(...lineId);
      return [];
    }
    const twice = seen.get(lineId);
    if (twice !== undefined) cells.fault('number', `its line is in row ${twice} too.`);
    seen.set(lineId, row);
    return promisedOn === undefined ? [] : [{ row, lineId, promisedOn, said }];
  }).flat();
}

/** Refuses days that move without a word of why, each with its row. */
export function refuseUnsaidRows(rows: readonly (DayRow & { readonly was: string | null })[]): void {
  refuseFaults(
    rows
      .filter(({ was, said }) => was !== null && said === '')
      .map(
        ({ row }): RowFault => ({ row, column: 'said', detail: 'is empty: a date that moves needs what they said.' }),
      ),
  );
}

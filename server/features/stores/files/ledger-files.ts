import { csvFileInBatches } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { sumText } from '../books/parts-file.ts';

export interface MovedLine {
  readonly at: string;
  readonly act: string;
  readonly number: string;
  readonly name: string;
  readonly lot: string;
  readonly bin: string;
  readonly onHand: number;
  readonly reserved: number;
  readonly valueMinor: number;
  readonly job: number | null;
  readonly reason: string;
  readonly by: string;
}

const movedColumns = [
  'at',
  'act',
  'number',
  'name',
  'lot',
  'bin',
  'on_hand_change',
  'reserved_change',
  'value_change',
  'job',
  'reason',
  'by',
] as const;

/** Movements as they happened, the oldest first: the sums of the changes are what lies there, is reserved and is worth. */
export const movementsFileOf = (batches: AsyncIterable<readonly MovedLine[]>, digits: number): AsyncGenerator<string> =>
  csvFileInBatches(movedColumns, batches, (line) => ({
    ...guardedRow({
      at: line.at,
      act: line.act,
      number: line.number,
      name: line.name,
      lot: line.lot,
      bin: line.bin,
      job: String(line.job ?? ''),
      reason: line.reason,
      by: line.by,
    }),
    // Figures, and no text that a spreadsheet could run: a minus stays a minus.
    on_hand_change: String(line.onHand),
    reserved_change: String(line.reserved),
    value_change: sumText(line.valueMinor, digits),
  }));

export interface CoreLine {
  readonly number: string;
  readonly name: string;
  readonly vendor: string;
  readonly order: number | null;
  readonly quantity: number;
  readonly chargeMinor: number;
  readonly owedAt: string;
  readonly sentAt: string | null;
  readonly creditedAt: string | null;
}

const coreColumns = [
  'number',
  'name',
  'vendor',
  'order',
  'quantity',
  'charge',
  'owed_at',
  'sent_at',
  'credited_at',
] as const;

/** Worn pieces that were or are owed, those still open first. */
export const coresFileOf = (batches: AsyncIterable<readonly CoreLine[]>, digits: number): AsyncGenerator<string> =>
  csvFileInBatches(coreColumns, batches, (line) =>
    guardedRow({
      number: line.number,
      name: line.name,
      vendor: line.vendor,
      order: String(line.order ?? ''),
      quantity: String(line.quantity),
      charge: sumText(line.chargeMinor, digits),
      owed_at: line.owedAt,
      sent_at: line.sentAt ?? '',
      credited_at: line.creditedAt ?? '',
    }),
  );

export interface WantedLine {
  readonly job: number;
  readonly family: string;
  readonly serial: string;
  readonly dueOn: string | null;
  readonly number: string;
  readonly name: string;
  readonly unit: string;
  readonly wanted: number;
  readonly notAsked: number;
  readonly reserved: number;
  readonly short: number;
  readonly issued: number;
  readonly cancelled: number;
  readonly held: string;
}

const wantedColumns = [
  'job',
  'family',
  'serial',
  'job_due_on',
  'number',
  'name',
  'unit',
  'wanted',
  'not_asked',
  'reserved',
  'short',
  'issued',
  'cancelled',
  'held',
] as const;

/** What the jobs in the shop want of stores, line by line, and in which bins and lots what is reserved lies. */
export const wantedFileOf = (batches: AsyncIterable<readonly WantedLine[]>): AsyncGenerator<string> =>
  csvFileInBatches(wantedColumns, batches, (line) =>
    guardedRow({
      job: String(line.job),
      family: line.family,
      serial: line.serial,
      job_due_on: line.dueOn ?? '',
      number: line.number,
      name: line.name,
      unit: line.unit,
      wanted: String(line.wanted),
      not_asked: String(line.notAsked),
      reserved: String(line.reserved),
      short: String(line.short),
      issued: String(line.issued),
      cancelled: String(line.cancelled),
      held: line.held,
    }),
  );

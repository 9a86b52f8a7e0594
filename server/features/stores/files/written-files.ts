import type { ShortLine } from '#contracts/stores-desks.ts';
import { csvFileInBatches, csvFileOf } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import { sumText } from '../books/parts-file.ts';
import type { OrderedLine, PriceLine } from './queries.ts';

const listColumns = ['their_number', 'our_number', 'name', 'price', 'pack', 'from'] as const;

const listed = (line: PriceLine, digits: number) => ({
  their_number: line.theirs,
  our_number: line.ours,
  name: line.name,
  price: sumText(line.priceMinor, digits),
  pack: String(line.packSize),
  from: line.from,
});

/** One vendor's prices in the columns of a price list, so that they can be brought in again. */
export const priceListOf = (batches: AsyncIterable<readonly PriceLine[]>, digits: number): AsyncGenerator<string> =>
  csvFileInBatches(listColumns, batches, (line) => guardedRow(listed(line, digits)));

/** All vendors' prices, as they were told. */
export const pricesFileOf = (batches: AsyncIterable<readonly PriceLine[]>, digits: number): AsyncGenerator<string> =>
  csvFileInBatches(['vendor', ...listColumns, 'told_by', 'told_at'], batches, (line) =>
    guardedRow({ vendor: line.vendor, ...listed(line, digits), told_by: line.toldBy, told_at: line.toldAt }),
  );

const orderColumns = [
  'order',
  'vendor',
  'written_on',
  'sent_on',
  'confirmed_on',
  'number',
  'their_number',
  'name',
  'job',
  'quantity',
  'unit',
  'pack',
  'received',
  'promised_on',
  'late',
  'price',
] as const;

const orderedCells = (line: OrderedLine, digits: number) => ({
  order: String(line.order ?? ''),
  vendor: line.vendor,
  written_on: line.writtenOn,
  sent_on: line.sentOn ?? '',
  confirmed_on: line.confirmedOn ?? '',
  number: line.number,
  their_number: line.theirs,
  name: line.name,
  job: String(line.job ?? ''),
  quantity: String(line.quantity),
  unit: line.unit,
  pack: String(line.packSize),
  received: String(line.received),
  promised_on: line.promisedOn ?? '',
  late: line.late ? 'yes' : 'no',
  price: line.priceMinor === null ? '' : sumText(line.priceMinor, digits),
});

export const ordersFileOf = (batches: AsyncIterable<readonly OrderedLine[]>, digits: number): AsyncGenerator<string> =>
  csvFileInBatches(orderColumns, batches, (line) => guardedRow(orderedCells(line, digits)));

const shortColumns = [
  'job',
  'family',
  'serial',
  'job_due_on',
  'number',
  'name',
  'short',
  'since',
  'uncovered',
  'expected_on',
  'late',
  'orders',
] as const;

/** What jobs are short of, the earliest promise first. */
export const shortFileOf = (lines: readonly ShortLine[]): string =>
  csvFileOf(
    shortColumns,
    lines.map((line) =>
      guardedRow({
        job: String(line.job.number),
        family: line.job.family,
        serial: line.job.serial,
        job_due_on: line.jobDueOn ?? '',
        number: line.part.number,
        name: line.part.name,
        short: String(line.short),
        since: line.since,
        uncovered: String(line.uncovered),
        expected_on: line.expectedOn ?? '',
        late: line.late ? 'yes' : 'no',
        orders: line.onOrder
          .map(
            ({ orderNumber, vendor, quantity }) =>
              `${quantity} of ${vendor.name}${orderNumber === null ? '' : `, order ${orderNumber}`}`,
          )
          .join('; '),
      }),
    ),
  );

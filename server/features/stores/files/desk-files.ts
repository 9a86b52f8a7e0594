import type { DueBin } from '#contracts/counts.ts';
import type { BuyingProposals } from '#contracts/supply.ts';
import { csvFileInBatches, csvFileOf } from '#platform/csv-file.ts';
import { guardedRow } from '#platform/spreadsheet-text.ts';
import type { findPicks } from '../desks/queries.ts';
import { expectedColumns } from './days-file.ts';
import type { ExpectedOut, VendorOut } from './desk-queries.ts';
import { vendorColumns } from './vendors-file.ts';

const word = (yes: boolean): string => (yes ? 'yes' : 'no');

const walkColumns = [
  'walk_order',
  'bin',
  'number',
  'name',
  'lot',
  'serial',
  'grade',
  'quantity',
  'unit',
  'job',
  'family',
  'engine',
  'job_due_on',
  'job_complete',
] as const;

/** What is to be picked, in the order in which the bins are walked past. */
export const walkFileOf = (picks: Awaited<ReturnType<typeof findPicks>>): string =>
  csvFileOf(
    walkColumns,
    picks.map((pick) =>
      guardedRow({
        walk_order: String(pick.walkOrder),
        bin: pick.bin.name,
        number: pick.part.number,
        name: pick.part.name,
        lot: pick.lot,
        serial: pick.serial ?? '',
        grade: pick.grade,
        quantity: String(pick.quantity),
        unit: pick.unit,
        job: String(pick.job.number),
        family: pick.job.family,
        engine: pick.job.serial,
        job_due_on: pick.dueOn ?? '',
        job_complete: word(pick.complete),
      }),
    ),
  );

/** What is still to come, the earliest first. */
export const expectedFileOf = (batches: AsyncIterable<readonly ExpectedOut[]>): AsyncGenerator<string> =>
  csvFileInBatches(expectedColumns, batches, (line) =>
    guardedRow({
      vendor: line.vendor,
      order: String(line.order ?? ''),
      number: line.number,
      name: line.name,
      job: String(line.job ?? ''),
      quantity: String(line.quantity),
      received: String(line.received),
      unit: line.unit,
      pack: String(line.packSize),
      promised_on: line.promisedOn ?? '',
      late: word(line.late),
      said: line.said,
      line: line.id,
    }),
  );

const toBuyColumns = [
  'vendor',
  'number',
  'name',
  'in_place_of',
  'quantity',
  'unit',
  'packs',
  'pack',
  'why',
  'jobs',
  'on_hand',
  'free',
  'coming',
  'reorder_point',
] as const;

/** All that should be bought, by vendor. */
export const toBuyFileOf = ({ vendors }: BuyingProposals): string =>
  csvFileOf(
    toBuyColumns,
    vendors.flatMap(({ vendor, lines }) =>
      lines.map((line) =>
        guardedRow({
          vendor: vendor?.name ?? '',
          number: line.part.number,
          name: line.part.name,
          in_place_of: line.insteadOf.map(({ number }) => number).join('; '),
          quantity: String(line.quantity),
          unit: line.unit,
          packs: String(line.packs),
          pack: String(line.packSize),
          why: line.why,
          jobs: line.needs
            .flatMap(({ job, quantity }) => (job === null ? [] : [`${quantity} for ${job.number}`]))
            .join('; '),
          on_hand: String(line.onHand),
          free: String(line.free),
          coming: String(line.coming),
          reorder_point: String(line.reorderPoint),
        }),
      ),
    ),
  );

export const vendorsFileOf = (batches: AsyncIterable<readonly VendorOut[]>): AsyncGenerator<string> =>
  csvFileInBatches(vendorColumns, batches, ({ name, trade, contact, retired }) =>
    guardedRow({ name, trade, contact, retired: word(retired) }),
  );

/** Every open bin by when it is due, never counted first. */
export const scheduleFileOf = (bins: readonly DueBin[]): string =>
  csvFileOf(
    ['bin', 'class', 'because_of', 'lots', 'counted_on', 'every_days', 'due_on', 'state', 'sheet'],
    bins.map((of) =>
      guardedRow({
        bin: of.bin.code,
        class: of.class,
        because_of: of.because?.number ?? '',
        lots: String(of.lots),
        counted_on: of.countedOn ?? '',
        every_days: String(of.everyDays),
        due_on: of.dueOn ?? '',
        state: of.state,
        sheet: String(of.sheet?.number ?? ''),
      }),
    ),
  );

import type { LineFault, MarkOrder, PlaceOrder } from '#contracts/supply.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { recordStock } from '../ledger/queries.ts';
import { lockLot } from '../movements/queries.ts';
import { minorOf } from '../movements/service.ts';
import { insertFact, keyedOf, liftCores } from '../receiving/fact-queries.ts';
import { findVendor } from '../receiving/queries.ts';
import { onesOf, orderedPacks } from './pack-orders.ts';
import {
  findOpenJobs,
  findOrder,
  findOrderedParts,
  findPricesToday,
  insertMark,
  insertOrder,
  insertOrderLines,
  lockLine,
} from './queries.ts';
import { reasonForOld } from './replaced.ts';

/** Writes an order: a document with a number and its lines, for stock or for jobs. */
export async function placeOrder(act: Act, asked: PlaceOrder): Promise<{ readonly id: string }> {
  const vendor = found(await findVendor(act.sql, asked.vendorId), 'such vendor');
  if (vendor.retired) throw new ProblemError('refused', `Nothing is bought from ${vendor.name} any more.`);
  const partIds = [...new Set(asked.lines.map(({ partId }) => partId))];
  const jobIds = [...new Set(asked.lines.flatMap(({ jobId }) => (jobId === undefined ? [] : [jobId])))];
  const parts = await findOrderedParts(act.sql, partIds);
  const jobs = await findOpenJobs(act.sql, jobIds);
  refuseUnknown(asked, { parts, jobs });
  const prices = new Map((await findPricesToday(act.sql, vendor.id, partIds)).map((told) => [told.partId, told]));
  const names = new Map(parts.map((part) => [part.id, part]));
  const ordered = asked.lines.map((line, at) =>
    orderedPacks(line, {
      vendor: vendor.name,
      part: found(names.get(line.partId), 'such part'),
      packSize: prices.get(line.partId)?.packSize,
      at: `/lines/${at}`,
    }),
  );
  const lines = await Promise.all(
    asked.lines.map(async ({ partId, jobId, price, wantedOn, promisedOn, replacedWhy, words = '' }, at) => ({
      partId,
      replacedWhy: reasonForOld(found(names.get(partId), 'such part'), replacedWhy, `/lines/${at}`),
      quantity: ordered[at]?.quantity ?? 0,
      packSize: ordered[at]?.packSize ?? 1,
      jobId: jobId ?? null,
      priceMinor:
        price === undefined
          ? (prices.get(partId)?.priceMinor ?? null)
          : await minorOf(act, price, `/lines/${at}/price`),
      wantedOn: wantedOn ?? null,
      promisedOn: promisedOn ?? null,
      words: words.trim(),
    })),
  );
  const { id, number } = await insertOrder(act.sql, {
    vendorId: vendor.id,
    words: asked.words?.trim() ?? '',
    byId: act.actor.id,
  });
  await insertOrderLines(act.sql, { orderId: id, vendorId: vendor.id, byId: act.actor.id, lines });
  await act.event('order.placed', { data: { number, vendor: vendor.name, lines: lines.length } });
  return { id };
}

function refuseUnknown(
  asked: PlaceOrder,
  known: { readonly parts: readonly { readonly id: string }[]; readonly jobs: readonly { readonly id: string }[] },
): void {
  const errors = asked.lines.flatMap(({ partId, jobId }, at) => [
    ...(known.parts.some(({ id }) => id === partId)
      ? []
      : [{ pointer: `/lines/${at}/partId`, detail: 'is no part that is known here' }]),
    ...(jobId === undefined || known.jobs.some(({ id }) => id === jobId)
      ? []
      : [{ pointer: `/lines/${at}/jobId`, detail: 'is no job that is still in the shop' }]),
  ]);
  const [first] = errors;
  if (first === undefined) return;
  throw new ProblemError('not-found', `${first.pointer} ${first.detail}. Nothing was ordered.`, { errors });
}

/** The order went out, or its vendor confirmed it. */
export async function markOrder(act: Act, asked: MarkOrder & { readonly id: string }): Promise<void> {
  const order = found(await findOrder(act.sql, asked.id), 'such order');
  const words = asked.words?.trim() ?? '';
  await insertMark(act.sql, { orderId: order.id, mark: asked.mark, words, byId: act.actor.id });
  await act.event('order.marked', { data: { number: order.number, mark: asked.mark, words } });
}

/** What came wrong, goes back, or will not come. */
export async function tellFault(act: Act, asked: LineFault & { readonly id: string }) {
  const line = found(await lockLine(act.sql, asked.id), 'such purchase line');
  const words = asked.words.trim();
  const open = line.quantity - line.received;
  const quantity = onesOf(asked, line.packSize);
  if (asked.kind === 'called off' && quantity > open) {
    throw new ProblemError('refused', `${Math.max(0, open)} are still to come on it: no more can be called off.`, {
      errors: [{ pointer: '/quantity', detail: `at most ${Math.max(0, open)}` }],
    });
  }
  if (asked.kind === 'sent back') await sendBack(act, { lotId: asked.lotId, quantity, words }, line);
  await insertFact(act.sql, {
    lineId: line.id,
    kind: asked.kind,
    quantity,
    lotId: asked.kind === 'sent back' ? asked.lotId : null,
    words,
    byId: act.actor.id,
    keyed: keyedOf(asked),
  });
  await act.event('purchase.fault', {
    data: { kind: asked.kind, part: line.part.number, name: line.part.name, quantity, words },
  });
  return { orderId: line.orderId };
}

/** Free pieces of a lot of that part leave stock for their vendor, and no core is owed for them; what is reserved is released first by hand. */
async function sendBack(
  act: Act,
  asked: { readonly lotId: string; readonly quantity: number; readonly words: string },
  line: { readonly id: string; readonly partId: string; readonly received: number },
): Promise<void> {
  const lot = found(await lockLot(act.sql, asked.lotId), 'such lot');
  if (lot.partId !== line.partId) {
    throw new ProblemError('refused', 'That lot is of another part than the purchase line.', {
      errors: [{ pointer: '/lotId', detail: 'is of another part' }],
    });
  }
  const free = Math.min(lot.onHand - lot.reserved, line.received);
  if (asked.quantity > free) {
    throw new ProblemError(
      'stock-short',
      `${free} of ${lot.name} (${lot.number}) can go back: ${lot.onHand} in the lot, ${lot.reserved} reserved, ${line.received} received on that line.`,
      { there: free, asked: asked.quantity },
    );
  }
  await recordStock(act.sql, {
    moves: [{ lotId: lot.id, act: 'send back', onHand: -asked.quantity, reason: asked.words }],
    holds: [],
    standings: [],
    byId: act.actor.id,
  });
  await liftCores(act.sql, { lineId: line.id, quantity: asked.quantity, words: asked.words, byId: act.actor.id });
}

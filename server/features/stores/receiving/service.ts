import type { JobName } from '#contracts/parts.ts';
import type { GoodsReceived, OrderPart, PurchaseLine, PurchaseQuery, ReceiveGoods } from '#contracts/stock.ts';
import type { Quantity } from '#contracts/wire.ts';
import type { KitPlan } from '#domain/stock/kit.ts';
import { worthComing } from '#domain/stock/packs.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { lockLines, recordStock } from '../ledger/queries.ts';
import { moveOnLine } from '../ledger/service.ts';
import { refuseClosedBin } from '../movements/correction.ts';
import { insertLot, lockBin } from '../movements/queries.ts';
import { minorOf } from '../movements/service.ts';
import { planFor } from '../reservations/plan.ts';
import { onesInWords, onesOf, orderedPacks } from '../supply/pack-orders.ts';
import { findOrderedParts, findPricesToday } from '../supply/queries.ts';
import { reasonForOld } from '../supply/replaced.ts';
import { type DeliveryShare, insertCoresOwed, insertFact, type Keyed, keyedOf } from './fact-queries.ts';
import {
  findComing,
  findJobName,
  findJobOfPurchase,
  findLineOfJob,
  findNewLot,
  findPackOfPurchase,
  findPart,
  findPurchases,
  findSaidNo,
  findVendor,
  findWaiting,
  insertPurchase,
  lockPurchaseLine,
} from './queries.ts';

/**
 * Takes goods in as a new lot. What a purchase line brings for a job that is short is reserved for it at once, unless its
 * owner said no; who else is short of the part is told, earliest promise first.
 */
export async function receiveGoods(act: Act, keyed: ReceiveGoods): Promise<GoodsReceived> {
  const asked = { ...keyed, quantity: await onesReceived(act, keyed) };
  const job = await jobBoughtFor(act, asked.purchaseLineId);
  const { part, bin, received } = await takeGoods(act, asked, { job, keyed: keyedOf(keyed) });
  await act.event('stock.received', {
    ...(job === undefined ? {} : { engineId: job.engineId, jobId: job.id }),
    data: {
      part: part.number,
      name: part.name,
      bin: bin.code,
      quantity: asked.quantity,
      reserved: received.reservedFor?.quantity ?? 0,
      ...(received.saidNo === null ? {} : { saidNo: received.saidNo.number }),
    },
  });
  return received;
}

/** Pieces that came, whole packs and loose ones; a pack is one of the purchase line's. */
async function onesReceived(act: Act, asked: ReceiveGoods): Promise<number> {
  if (asked.packs === undefined) return asked.quantity;
  if (asked.purchaseLineId === undefined) {
    throw new ProblemError(
      'refused',
      'How many a pack has is said by an order. Without one, say how many pieces came.',
      {
        errors: [{ pointer: '/packs', detail: 'needs a purchase line' }],
      },
    );
  }
  const packSize = await findPackOfPurchase(act.sql, asked.purchaseLineId);
  return onesOf(asked, found(packSize, 'such purchase line'));
}

type OpenJob = Awaited<ReturnType<typeof openJob>>;

interface GoodsFor {
  /** Whose locks are held; undefined: for stock. */
  readonly job: OpenJob | undefined;
  readonly delivery?: DeliveryShare | undefined;
  /** Packs and loose ones as they were keyed; undefined: by serial. */
  readonly keyed: Keyed | undefined;
}

/** Takes goods in for a job whose locks are held, or for stock; the caller tells of it. */
export async function takeGoods(act: Act, asked: ReceiveGoods, { job, delivery, keyed }: GoodsFor) {
  const part = found(await findPart(act.sql, asked.partId), 'such part');
  const bin = found(await lockBin(act.sql, asked.binId), 'such bin');
  refuseClosedBin(bin, '/binId');
  const line = await lineToReceiveOn(act, asked, part.name);
  const lotId = await insertLot(act.sql, {
    partId: part.id,
    binId: bin.id,
    code: asked.lotCode?.trim() ?? '',
    shimNm: thicknessOf(asked.thickness, part.shim),
    grade: asked.grade?.trim() ?? '',
    serial: serialOf(asked, part),
    used: asked.usedCondition !== undefined,
    condition: asked.usedCondition?.trim() ?? '',
  });
  const value =
    asked.cost === undefined && line !== undefined
      ? Number(worthComing({ ...line, priceMinor: BigInt(line.priceMinor ?? 0) }, line.received, asked.quantity))
      : await minorOf(act, asked.cost);
  await recordStock(act.sql, {
    moves: [{ lotId, act: 'receive', onHand: asked.quantity, value }],
    holds: [],
    standings: [],
    byId: act.actor.id,
  });
  await noteOnPurchase(act, asked, { lotId, delivery, keyed });
  const refused = job !== undefined && (await findSaidNo(act.sql, job.id));
  const reservedFor =
    job === undefined || refused
      ? null
      : await serveFirst(act, { job, lotId, partId: part.id, quantity: asked.quantity });
  const received: GoodsReceived = {
    lotId,
    onHand: asked.quantity,
    available: asked.quantity - (reservedFor?.quantity ?? 0),
    reservedFor,
    saidNo: refused ? await jobNamed(act, job.id) : null,
    ...(await findWaiting(act.sql, part.id)),
  };
  return { part, bin, received };
}

/** The job that a purchase line is for, opened and locked, if it is still in the shop. */
export async function jobBoughtFor(act: Act, purchaseLineId: string | undefined) {
  if (purchaseLineId === undefined) return undefined;
  const { openJobId } = found(await findJobOfPurchase(act.sql, purchaseLineId), 'such purchase line');
  return openJobId === null ? undefined : openJob(act, openJobId);
}

/** The purchase line that goods come in on, locked; undefined: without one. More than is open on it is refused. */
async function lineToReceiveOn(act: Act, asked: ReceiveGoods, name: string) {
  if (asked.purchaseLineId === undefined) return undefined;
  const line = found(await lockPurchaseLine(act.sql, asked.purchaseLineId), 'such purchase line');
  if (line.partId !== asked.partId) {
    throw new ProblemError('refused', `That purchase line is for another part than ${name}.`, {
      errors: [{ pointer: '/partId', detail: 'is not the part of the purchase line' }],
    });
  }
  const open = Math.max(0, line.quantity - line.received);
  if (asked.quantity > open && asked.acceptOver !== true) {
    throw new ProblemError(
      'refused',
      `${onesInWords(line.quantity, line.packSize)} were ordered and ${line.received} have come in: ${onesInWords(open, line.packSize)} can be received on it, not ${asked.quantity}. Say that what is over is kept (acceptOver), or receive less.`,
      { errors: [{ pointer: '/quantity', detail: `at most ${open}` }] },
    );
  }
  return line;
}

/** What came goes down on the purchase line as a fact; a core may be owed for it. */
async function noteOnPurchase(
  act: Act,
  asked: ReceiveGoods,
  { lotId, delivery, keyed }: Pick<GoodsFor, 'delivery' | 'keyed'> & { readonly lotId: string },
): Promise<void> {
  const { purchaseLineId: lineId, quantity } = asked;
  if (lineId === undefined) return;
  const fact = { lineId, kind: 'received' as const, quantity, lotId, words: '', byId: act.actor.id };
  await insertFact(act.sql, {
    ...fact,
    ...(delivery === undefined ? {} : { delivery }),
    ...(keyed === undefined ? {} : { keyed }),
  });
  await insertCoresOwed(act.sql, lineId, quantity);
}

function thicknessOf(thickness: Quantity | undefined, isShim: boolean): number | null {
  if (thickness === undefined) return null;
  if (!isShim) throw new ProblemError('refused', 'Only a lot of shims has a thickness. Leave it out.');
  const parsed = parseQuantity(thickness.value, thickness.unit, 'length');
  if (parsed.ok && parsed.value > 0) return parsed.value;
  throw new ProblemError('unit-wrong', 'The thickness must be a length above zero, such as 2.30 mm.', {
    errors: [{ pointer: '/thickness', detail: 'is not such a length' }],
  });
}

/** A part that is kept by serial comes in one by one, each with its own. */
function serialOf(asked: ReceiveGoods, part: { readonly name: string; readonly bySerial: boolean }): string | null {
  const serial = asked.serial?.trim() ?? null;
  const refuse = (pointer: string, detail: string): never => {
    throw new ProblemError('refused', `${part.name} is kept by serial: ${detail}.`, { errors: [{ pointer, detail }] });
  };
  if (part.bySerial && serial === null) return refuse('/serial', 'give the serial');
  if (serial !== null && asked.quantity !== 1)
    return refuse('/quantity', 'receive one at a time, each with its serial');
  return serial;
}

interface Served {
  readonly job: { readonly id: string };
  readonly lotId: string;
  readonly partId: string;
  readonly quantity: number;
}

const countOf = ({ reservations }: KitPlan): number => reservations.reduce((sum, { count }) => sum + count, 0);

const jobNamed = async (act: Act, id: string): Promise<JobName> => found(await findJobName(act.sql, id), 'such job');

/**
 * Reserves of a lot nobody else has seen yet, for a job whose locks are held, as far as its rule lets it have that lot, and
 * for as long as it was asked for.
 */
async function serveFirst(act: Act, { job, lotId, partId, quantity }: Served): Promise<GoodsReceived['reservedFor']> {
  const lineId = await findLineOfJob(act.sql, { jobId: job.id, partId });
  const [line] = lineId === undefined ? [] : await lockLines(act.sql, [lineId]);
  if (line === undefined || line.short === 0) return null;
  const lot = {
    ...found(await findNewLot(act.sql, lotId), 'such lot'),
    id: lotId,
    partId,
    onHand: quantity,
    reserved: 0,
  };
  const count = countOf(planFor([{ ...line, notAsked: 0 }], [lot], false));
  if (count === 0) return null;
  await recordStock(act.sql, {
    moves: [{ lotId, act: 'reserve', reserved: count, demandLineId: line.id, jobId: job.id }],
    holds: [{ demandLineId: line.id, lotId, count }],
    standings: [moveOnLine(line, 'short', { to: 'reserved', count })],
    byId: act.actor.id,
    expiresAt: line.askedUntil ?? undefined,
  });
  return { job: await jobNamed(act, job.id), demandLineId: line.id, quantity: count, until: line.askedUntil };
}

/** Writes down what was ordered from whom, for stock or for a job. */
export async function orderPart(act: Act, asked: OrderPart): Promise<{ readonly id: string }> {
  const job = asked.jobId === undefined ? undefined : await openJob(act, asked.jobId);
  const vendor = found(await findVendor(act.sql, asked.vendorId), 'such vendor');
  if (vendor.retired) throw new ProblemError('refused', `Nothing is bought from ${vendor.name} any more.`);
  const [known] = await findOrderedParts(act.sql, [asked.partId]);
  const part = found(known, 'such part');
  const [told] = await findPricesToday(act.sql, vendor.id, [part.id]);
  const ordered = orderedPacks(asked, { vendor: vendor.name, part, packSize: told?.packSize, at: '' });
  const id = await insertPurchase(act.sql, {
    ...asked,
    ...ordered,
    replacedWhy: reasonForOld(part, asked.replacedWhy, ''),
    words: asked.words?.trim() ?? '',
    byId: act.actor.id,
  });
  await act.event('part.ordered', {
    ...(job === undefined ? {} : { engineId: job.engineId, jobId: job.id }),
    data: {
      part: part.number,
      name: part.name,
      vendor: vendor.name,
      quantity: ordered.quantity,
      promisedOn: asked.promisedOn ?? null,
    },
  });
  return { id };
}

export async function purchases(
  sql: Sql,
  query: PurchaseQuery,
): Promise<{ items: PurchaseLine[]; next: string | null }> {
  const limit = query.limit ?? 50;
  const rows = await findPurchases(sql, { ...query, limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.id ?? null) : null };
}

export const purchasesComing = (sql: Sql): ReturnType<typeof findComing> => findComing(sql);

import type { DeliveryTaken, ExpectedGoods, TakeDelivery } from '#contracts/deliveries.ts';
import type { GoodsReceived, ReceiveGoods } from '#contracts/stock.ts';
import type { Named } from '#contracts/wire.ts';
import { worthComing } from '#domain/stock/packs.ts';
import { shareByWorth } from '#domain/stock/reorder.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findCurrency } from '../ledger/queries.ts';
import { minorOf } from '../movements/service.ts';
import { insertFact, keyedOf } from '../receiving/fact-queries.ts';
import { findPackOfPurchase } from '../receiving/queries.ts';
import { takeGoods } from '../receiving/service.ts';
import { findExpectedLines, findExpectingVendors, findJobsOfLines, insertDelivery } from './delivery-queries.ts';
import { pricedFor } from './money.ts';
import { onesOf } from './pack-orders.ts';
import { lockPurchaseLines, type PurchaseLine } from './queries.ts';

type AskedLine = TakeDelivery['lines'][number];

/** One lot that a delivery brings: a line's good pieces, or one piece of those that are kept by serial. */
interface Receipt {
  readonly at: number;
  readonly asked: AskedLine;
  readonly line: PurchaseLine;
  readonly quantity: number;
  readonly serial: string | undefined;
  readonly goods: bigint;
}

/**
 * Takes in what one delivery brought, all of it or none. Freight joins the cost of what was taken in, by its worth; what
 * came wrong or damaged stays out of stock, and its line open.
 */
export async function takeDelivery(act: Act, asked: TakeDelivery, seesMoney: boolean): Promise<DeliveryTaken> {
  const jobs = await openJobsOf(act, asked);
  const receipts = await receiptsOf(act, asked);
  const freight = BigInt(await minorOf(act, asked.freight, '/freight'));
  if (receipts.length === 0 && freight > 0n) {
    throw new ProblemError(
      'refused',
      'Nothing is taken in, so there is nothing the freight could join. Leave it out.',
      {
        errors: [{ pointer: '/freight', detail: 'has no goods to join' }],
      },
    );
  }
  const deliveryId = await insertDelivery(act.sql, {
    note: asked.note?.trim() ?? '',
    freightMinor: Number(freight),
    byId: act.actor.id,
  });
  const shares =
    receipts.length === 0
      ? []
      : shareByWorth(
          freight,
          receipts.map(({ goods }) => goods),
        );
  const took = new Map<Receipt, Awaited<ReturnType<typeof takeOne>>>();
  const shared = receipts.map((receipt, at) => ({ receipt, freight: shares[at] ?? 0n }));
  // The worth of a part is kept under its row's lock: by part, two deliveries can't wait for each other.
  for (const one of shared.toSorted((a, b) => (a.receipt.line.partId < b.receipt.line.partId ? -1 : 1)))
    took.set(one.receipt, await takeOne(act, { ...one, deliveryId, job: jobs.get(one.receipt.line.id) }));
  const aside = await putAside(act, asked, deliveryId);
  await act.event('delivery.taken', {
    data: {
      note: asked.note?.trim() ?? '',
      lines: asked.lines.length,
      pieces: receipts.reduce((sum, { quantity }) => sum + quantity, 0),
      freight: Number(freight),
      wrong: aside['came wrong'],
      damaged: aside['came damaged'],
    },
  });
  const priced = await pricedFor(act.sql, seesMoney);
  return {
    id: deliveryId,
    freight: priced(Number(freight)),
    lines: shared.flatMap(({ receipt, freight: share }) => {
      const one = took.get(receipt);
      if (one === undefined) return [];
      return {
        ...one.received,
        purchaseLineId: receipt.line.id,
        part: receipt.line.part,
        bin: one.bin,
        goods: priced(Number(receipt.goods)),
        freight: priced(Number(share)),
        landed: priced(Number(receipt.goods + share)),
        coresOwed: receipt.line.coreMinor > 0 ? receipt.quantity : 0,
      };
    }),
  };
}

/** The jobs that lines are for, their engines locked in order, by line. */
async function openJobsOf(act: Act, { lines }: TakeDelivery) {
  const jobs = new Map<string, Awaited<ReturnType<typeof openJob>>>();
  const opened = new Map<string, Awaited<ReturnType<typeof openJob>>>();
  const ids = lines.map(({ purchaseLineId }) => purchaseLineId);
  for (const { lineId, jobId } of await findJobsOfLines(act.sql, ids)) {
    const job = opened.get(jobId) ?? (await openJob(act, jobId));
    opened.set(jobId, job);
    jobs.set(lineId, job);
  }
  return jobs;
}

/** Each lot the delivery brings, with what its goods cost; the lines are locked by id. */
async function receiptsOf(act: Act, { lines }: TakeDelivery): Promise<readonly Receipt[]> {
  const ids = lines.map(({ purchaseLineId }) => purchaseLineId);
  const locked = new Map<string, PurchaseLine>((await lockPurchaseLines(act.sql, ids)).map((line) => [line.id, line]));
  const receipts: Receipt[] = [];
  const came = new Map([...locked].map(([id, { received }]) => [id, received]));
  for (const [at, asked] of lines.entries()) {
    const line = found(locked.get(asked.purchaseLineId), 'such purchase line');
    const quantity = onesOf(asked, line.packSize, `/lines/${at}`);
    refuseNothing(asked, quantity, at);
    if (quantity === 0) continue;
    const { cost } = asked;
    const before = came.get(line.id) ?? 0;
    came.set(line.id, before + quantity);
    const price = { priceMinor: BigInt(line.priceMinor ?? 0), packSize: line.packSize };
    const goods =
      cost === undefined ? worthComing(price, before, quantity) : BigInt(await minorOf(act, cost, `/lines/${at}/cost`));
    const serials = asked.serials ?? (asked.serial === undefined ? undefined : [asked.serial]);
    if (serials === undefined) receipts.push({ at, asked, line, quantity, serial: undefined, goods });
    else {
      refuseSerials(serials, { at, quantity, name: line.part.name });
      const each = shareByWorth(
        goods,
        serials.map(() => 1n),
      );
      receipts.push(
        ...serials.map((serial, nth) => ({ at, asked, line, quantity: 1, serial, goods: each[nth] ?? 0n })),
      );
    }
  }
  return receipts;
}

function refuseNothing({ wrong, damaged, binId }: AskedLine, quantity: number, at: number): void {
  const refuse = (pointer: string, detail: string, words: string): never => {
    throw new ProblemError('refused', words, { errors: [{ pointer: `/lines/${at}/${pointer}`, detail }] });
  };
  if (quantity === 0 && wrong === undefined && damaged === undefined)
    refuse('quantity', 'nothing came', 'A line of which nothing came does not belong in the delivery. Leave it out.');
  if (quantity > 0 && binId === undefined) refuse('binId', 'choose a bin', 'Say in which bin the good pieces go.');
}

function refuseSerials(
  serials: readonly string[],
  of: { readonly at: number; readonly quantity: number; readonly name: string },
): void {
  const twice = serials.find((serial, at) => serials.some((other, on) => on < at && other.trim() === serial.trim()));
  const detail =
    serials.length !== of.quantity
      ? `${of.quantity} came, ${serials.length} serials are given`
      : twice === undefined
        ? undefined
        : `"${twice.trim()}" is there twice`;
  if (detail === undefined) return;
  throw new ProblemError('refused', `${of.name} is kept by serial: one for each piece, and each once.`, {
    errors: [{ pointer: `/lines/${of.at}/serials`, detail }],
  });
}

interface ToTake {
  readonly receipt: Receipt;
  readonly freight: bigint;
  readonly deliveryId: string;
  readonly job: Awaited<ReturnType<typeof openJob>> | undefined;
}

async function takeOne(
  act: Act,
  { receipt, freight, deliveryId, job }: ToTake,
): Promise<{ received: GoodsReceived; bin: Named }> {
  const { asked, line, quantity, serial, goods, at } = receipt;
  const { lotCode, thickness, grade, acceptOver } = asked;
  const minor = String(goods + freight);
  const wanted: ReceiveGoods = {
    partId: line.partId,
    binId: asked.binId ?? '',
    quantity,
    purchaseLineId: line.id,
    cost: { minor, currency: await findCurrency(act.sql) },
    ...(lotCode === undefined ? {} : { lotCode }),
    ...(thickness === undefined ? {} : { thickness }),
    ...(grade === undefined ? {} : { grade }),
    ...(acceptOver === undefined ? {} : { acceptOver }),
    ...(serial === undefined ? {} : { serial }),
  };
  try {
    const { received, bin } = await takeGoods(act, wanted, {
      job,
      delivery: { id: deliveryId, goods, freight },
      keyed: serial === undefined ? keyedOf(asked) : undefined,
    });
    return { received, bin: { id: bin.id, name: bin.code } };
  } catch (error) {
    throw error instanceof ProblemError ? onLine(error, at) : error;
  }
}

/** A refusal of one line, told as one of the delivery. */
const onLine = (problem: ProblemError, at: number): ProblemError =>
  new ProblemError(problem.code, problem.message, {
    ...problem.extras,
    errors: (problem.extras.errors ?? [{ pointer: '', detail: problem.message }]).map(({ pointer, detail }) => ({
      pointer: `/lines/${at}${pointer}`,
      detail,
    })),
  });

/** What came wrong or damaged is noted on its line, which stays open for as many. Tells how many ones of each. */
async function putAside(act: Act, { lines }: TakeDelivery, deliveryId: string) {
  const ones = { 'came wrong': 0, 'came damaged': 0 };
  for (const [at, { purchaseLineId: lineId, wrong, damaged }] of lines.entries()) {
    for (const [kind, aside] of [
      ['came wrong', wrong],
      ['came damaged', damaged],
    ] as const) {
      if (aside === undefined) continue;
      const packSize = found(await findPackOfPurchase(act.sql, lineId), 'such purchase line');
      const quantity = onesOf(aside, packSize, `/lines/${at}/${kind === 'came wrong' ? 'wrong' : 'damaged'}`);
      ones[kind] += quantity;
      const words = aside.words.trim();
      await insertFact(act.sql, {
        lineId,
        kind,
        quantity,
        lotId: null,
        words,
        byId: act.actor.id,
        delivery: { id: deliveryId },
        keyed: keyedOf(aside),
      });
    }
  }
  return ones;
}

/** Of whom something is still to come, and all of one vendor's lines. */
export async function expectedGoods(
  sql: Sql,
  vendorId: string | undefined,
  seesMoney: boolean,
): Promise<ExpectedGoods> {
  const [vendors, lines, priced] = await Promise.all([
    findExpectingVendors(sql),
    vendorId === undefined ? [] : findExpectedLines(sql, vendorId),
    pricedFor(sql, seesMoney),
  ]);
  return {
    vendors: [...vendors],
    lines: lines.map(({ priceMinor, coreMinor, ...line }) => ({
      ...line,
      price: priced(priceMinor),
      core: coreMinor > 0 ? priced(coreMinor) : null,
      owesCore: coreMinor > 0,
    })),
  };
}

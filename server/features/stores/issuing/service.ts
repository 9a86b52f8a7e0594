import type { IssueParts, ReturnParts } from '#contracts/demands.ts';
import { type StockValue, takeAtAverage } from '#domain/stock/value.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { recordStock } from '../ledger/queries.ts';
import { moveOnLine, type OpenLine, openLine, sharesOf } from '../ledger/service.ts';
import { findClosedBins, findLotHolders, findOut, type OutOfLot } from './queries.ts';

/** What `count` of the pieces are worth; the caller has seen that there are so many. */
function worthOf(stock: StockValue, count: number): number {
  const step = takeAtAverage(stock, count);
  if (!step.ok) throw new Error(`${count} pieces cannot be taken from ${stock.onHand}`);
  return Number(step.moved);
}

/** Hands reserved pieces out to their job, of the oldest lot first or of the lot that was scanned. */
export async function issue(
  act: Act,
  asked: IssueParts & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const open = await openLine(act, asked.demandLineId);
  const { job, line, lots } = open;
  const held = asked.lotId === undefined ? open.held : open.held.filter(({ lotId }) => lotId === asked.lotId);
  if (asked.lotId !== undefined && held.length === 0) await refuseLotOfAnother(act, open, asked.lotId);
  const there = held.reduce((sum, { quantity }) => sum + quantity, 0);
  if (asked.quantity > there) {
    throw new ProblemError(
      'stock-short',
      `Of ${line.name} (${line.number}) ${there} ${there === 1 ? 'is' : 'are'} reserved for job ${job.number}${asked.lotId === undefined ? '' : ' in that lot'}, not ${asked.quantity}. Reserve them first: what is reserved for another job is not handed out.`,
      { reserved: there, asked: asked.quantity },
    );
  }
  const shares = sharesOf(held, lots, asked.quantity);
  await recordStock(act.sql, {
    moves: shares.map(({ lotId, count }) => ({
      act: 'issue',
      lotId,
      onHand: -count,
      reserved: -count,
      demandLineId: line.id,
      jobId: job.id,
    })),
    holds: shares.map(({ lotId, count }) => ({ demandLineId: line.id, lotId, count: -count })),
    standings: [moveOnLine(line, 'reserved', { to: 'issued', count: asked.quantity })],
    byId: act.actor.id,
  });
  await act.event('part.issued', {
    engineId: job.engineId,
    jobId: job.id,
    data: { part: line.number, name: line.name, quantity: asked.quantity },
  });
  return { jobId: job.id };
}

/** Says why a scanned lot gives nothing to this line: it is another part, promised to others, or not reserved at all. */
async function refuseLotOfAnother(act: Act, { job, line }: OpenLine, lotId: string): Promise<never> {
  const lot = found(await findLotHolders(act.sql, lotId), 'such lot');
  if (lot.partId !== line.partId) {
    throw new ProblemError('refused', `What lies in ${lot.bin} in that lot is another part than ${line.name}.`);
  }
  const others = lot.jobs.map(String).join(', ');
  throw new ProblemError(
    'conflict',
    others === ''
      ? `Nothing of that lot is reserved for job ${job.number}. Reserve it first.`
      : `That lot is reserved for job ${others}, not for job ${job.number}.`,
    { reservedFor: lot.jobs },
  );
}

/** Of what is out, which lots the pieces go back to: those handed out last first. */
function sharesOfReturn(out: readonly OutOfLot[], quantity: number) {
  let left = quantity;
  return out.flatMap(({ lotId, quantity: outOfLot, valueMinor }) => {
    const count = Math.min(left, outOfLot);
    left -= count;
    return count === 0
      ? []
      : [{ lotId, count, worth: worthOf({ onHand: outOfLot, value: BigInt(valueMinor) }, count) }];
  });
}

/** Takes unused pieces back into the lots they came from, at the value they went out with. */
export async function takeBackUnused(
  act: Act,
  asked: ReturnParts & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const { job, line } = await openLine(act, asked.demandLineId);
  const standing = moveOnLine(line, 'issued', {
    to: asked.stillNeeded === true ? 'notAsked' : 'cancelled',
    count: asked.quantity,
  });
  const shares = sharesOfReturn(await findOut(act.sql, line.id), asked.quantity);
  const closed = await findClosedBins(
    act.sql,
    shares.map(({ lotId }) => lotId),
  );
  if (closed.length > 0) {
    throw new ProblemError('conflict', `Bin ${closed.join(', ')} is closed and takes nothing in. Open it again first.`);
  }
  const reason = asked.reason?.trim() ?? '';
  await recordStock(act.sql, {
    moves: shares.map(({ lotId, count, worth }) => ({
      act: 'return',
      lotId,
      onHand: count,
      value: worth,
      demandLineId: line.id,
      jobId: job.id,
      reason,
    })),
    holds: [],
    standings: [standing],
    byId: act.actor.id,
  });
  await act.event('part.returned', {
    engineId: job.engineId,
    jobId: job.id,
    data: { part: line.number, name: line.name, quantity: asked.quantity, reason },
  });
  return { jobId: job.id };
}

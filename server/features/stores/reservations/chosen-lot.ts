import type { ReserveOfLot } from '#contracts/demands.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { recordStock } from '../ledger/queries.ts';
import { openLine } from '../ledger/service.ts';
import { taken } from './plan.ts';
import { lockChosenLot } from './queries.ts';

/** Reserves pieces out of the very lot that somebody chose, for a line that wants them. */
export async function reserveOfLot(
  act: Act,
  asked: ReserveOfLot & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const { job, line } = await openLine(act, asked.demandLineId, asked.lotId);
  const lot = found(await lockChosenLot(act.sql, asked.lotId), 'such lot');
  if (lot.partId !== line.partId) {
    throw new ProblemError('refused', `What lies in that lot is another part than ${line.name} (${line.number}).`, {
      errors: [{ pointer: '/lotId', detail: 'is a lot of another part' }],
    });
  }
  const there = lot.onHand - lot.reserved;
  if (asked.quantity > there) {
    throw new ProblemError('stock-short', `Of that lot ${there} can be reserved, not ${asked.quantity}.`, {
      there,
      asked: asked.quantity,
    });
  }
  await recordStock(act.sql, {
    moves: [
      {
        lotId: lot.id,
        act: 'reserve',
        reserved: asked.quantity,
        demandLineId: line.id,
        jobId: job.id,
        reason: lot.used ? lot.condition : '',
      },
    ],
    holds: [{ demandLineId: line.id, lotId: lot.id, count: asked.quantity }],
    standings: [taken(line, asked.quantity)],
    byId: act.actor.id,
  });
  await act.event('part.chosen', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      part: line.number,
      name: line.name,
      quantity: asked.quantity,
      used: lot.used,
      condition: lot.condition,
      lot: lot.code,
    },
  });
  return { jobId: job.id };
}

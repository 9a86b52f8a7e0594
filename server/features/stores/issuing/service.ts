import type { IssueParts } from '#contracts/demands.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { recordStock } from '../ledger/queries.ts';
import { moveOnLine, type OpenLine, openLine, sharesOf } from '../ledger/service.ts';
import { findLotHolders } from './queries.ts';

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
      {
        reserved: there,
        asked: asked.quantity,
        errors: [{ pointer: '/quantity', detail: there > 0 ? `at most ${there}` : 'nothing is reserved' }],
      },
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
    throw new ProblemError('refused', `What lies in ${lot.bin} in that lot is another part than ${line.name}.`, {
      errors: [{ pointer: '/lotId', detail: 'is a lot of another part' }],
    });
  }
  const others = lot.jobs.map(String).join(', ');
  throw new ProblemError(
    'conflict',
    others === ''
      ? `Nothing of that lot is reserved for job ${job.number}. Reserve it first.`
      : `That lot is reserved for job ${others}, not for job ${job.number}.`,
    {
      reservedFor: lot.jobs,
      errors: [
        {
          pointer: '/lotId',
          detail: others === '' ? 'nothing of it is reserved for the job' : `is reserved for job ${others}`,
        },
      ],
    },
  );
}

import { stillAsked } from '#domain/stock/demand.ts';
import type { Act } from '#platform/act.ts';
import type { HeldPart } from '../holds/queries.ts';
import { lockLinesOfJob, lockLotsOfJob } from '../ledger/queries.ts';
import { type LetGo, letGo } from '../reservations/letting-go.ts';
import { findHoldsOfJob, makeFirm } from './queries.ts';

/**
 * The owner said yes: what was held for it is firm, and what is short is waited for without an end. The caller holds the
 * job (openJob) and tells of it.
 */
export async function holdFirmly(act: Act, jobId: string): Promise<{ readonly firm: readonly HeldPart[] }> {
  await lockLinesOfJob(act.sql, { jobId, lineIds: undefined });
  return { firm: await makeFirm(act.sql, jobId) };
}

/**
 * The owner said no: what is reserved and not handed out goes back to stock, and nothing is waited for. What another yes
 * of the same job was given for stays (`agreedBefore`): then only what was held until a day goes. The parts stay wanted,
 * so that another quote finds them. The caller holds the job (openJob) and tells of it.
 */
export async function giveBackHeld(
  act: Act,
  of: { readonly jobId: string; readonly agreedBefore: boolean; readonly reason: string },
): Promise<LetGo> {
  const { jobId, agreedBefore, reason } = of;
  await lockLotsOfJob(act.sql, jobId);
  const lines = await lockLinesOfJob(act.sql, { jobId, lineIds: undefined });
  const holds = await findHoldsOfJob(act.sql, { jobId, firmToo: !agreedBefore });
  const ended = lines.filter((line) => stillAsked(line) && (!agreedBefore || line.askedUntil !== null));
  return letGo(act, { jobId, lines, holds, askings: new Set(ended.map(({ id }) => id)), reason });
}

import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findHolding, type Holder, type Holding, insertHolding, lockEngine, type Subject } from './queries.ts';

export type { Holder, Holding, Subject } from './queries.ts';

/** Locks the engine for the rest of the act, or refuses when it is unknown. Always the first lock. */
export async function takeEngineLock(act: Act, engineId: string): Promise<void> {
  if (!(await lockEngine(act.sql, engineId))) throw new ProblemError('not-found', 'There is no such engine.');
}

/** Who holds the subject now. Every engine and tray that exists is held. */
export async function holdingOf(act: Act, subject: Subject): Promise<Holding> {
  return found(await findHolding(act.sql, subject), 'holder of it, which cannot be: tell the lead');
}

/** Moves custody of a locked subject; the event that tells it is the caller's, since only it knows the act of the trade. */
export async function moveTo(
  act: Act,
  subject: Subject,
  move: { readonly to: Holder; readonly reason: string; readonly handoverId?: string },
): Promise<void> {
  await insertHolding(act.sql, { subject, movedById: act.actor.id, ...move });
}

import { emptyTrays, moveTo } from '#features/custody/service.ts';
import { callOffRest } from '#features/stores/demands/service.ts';
import type { Act } from '#platform/act.ts';
import { updateHandedBack } from './queries.ts';

export interface Leaving {
  readonly jobId: string;
  readonly number: number;
  readonly engineId: string;
  readonly ownerId: string;
  readonly note: string | undefined;
  /** What stood against it and was let pass. */
  readonly overridden: readonly string[];
  readonly inBoxes: boolean;
}

/** The engine goes to its owner: trays emptied, the rest called off at stores, custody passed on, the job ended. */
export async function sendHome(act: Act, of: Leaving): Promise<{ handedBackAt: string }> {
  const { jobId, number, engineId, ownerId } = of;
  const trays = await emptyTrays(act, jobId);
  const calledOff = await callOffRest(act, { jobId, reason: `job ${number} was handed back` });
  await moveTo(act, { engineId }, { to: { ownerId }, reason: `job ${number} handed back` });
  const handedBackAt = await updateHandedBack(act.sql, { jobId, byId: act.actor.id, note: of.note?.trim() ?? '' });
  await act.event('engine.handed-back', {
    engineId,
    jobId,
    data: { number, trays, calledOff, overridden: of.overridden, inBoxes: of.inBoxes },
  });
  return { handedBackAt };
}

import type { Act } from '#platform/act.ts';
import {
  findTallyObligations,
  findTrayMiscount,
  insertObligation,
  insertObligationAct,
  type NewObligation,
  type NewObligationAct,
} from './queries.ts';

/** Opens an obligation: of a finding, a difference at a handover, a count, or a lead. The event is the caller's. */
export async function openObligation(act: Act, obligation: NewObligation): Promise<string> {
  return insertObligation(act.sql, obligation);
}

/** As openObligation, for a tray counted otherwise than its tally says; where the same stands already, that one. */
export async function openMiscount(
  act: Act,
  { pieceId, ...obligation }: Omit<NewObligation, 'cause'> & { readonly pieceId: string },
): Promise<{ readonly id: string; readonly opened: boolean }> {
  const known = await findTrayMiscount(act.sql, { pieceId, words: obligation.words });
  if (known !== undefined) return { id: known, opened: false };
  return { id: await openObligation(act, { ...obligation, cause: { pieceId } }), opened: true };
}

/** Decides, discharges or reopens an obligation in the name of who acts. The event is the caller's. */
export async function actOnObligation(act: Act, done: NewObligationAct): Promise<void> {
  await insertObligationAct(act.sql, { ...done, byId: act.actor.id });
}

/** What the tally itself raised about a piece and still stands. */
export async function openOnTally(act: Act, pieceId: string): Promise<readonly string[]> {
  return findTallyObligations(act.sql, pieceId);
}

import { countedAsOne } from '#domain/custody/counting.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findHolderName,
  findHolding,
  findOffers,
  type Holder,
  type Holding,
  insertHolding,
  lockEngine,
  type Subject,
} from './queries.ts';
import {
  emptyAllTrays,
  type ForViewer,
  findBlindPieces,
  findBlindTrays,
  findCountsAgain,
  findLooseIn,
  findObligationsAbout,
  findTrays,
  lockTrays,
  type TrayRow,
} from './tray-queries.ts';

export type { Holder, Holding, Subject } from './queries.ts';
export type { TrayRow } from './tray-queries.ts';

/** Locks the engine for the rest of the act, or refuses when it is unknown. Always the first lock. */
export async function takeEngineLock(act: Pick<Act, 'sql'>, engineId: string): Promise<void> {
  if (!(await lockEngine(act.sql, engineId))) throw new ProblemError('not-found', 'There is no such engine.');
}

/** Who holds the subject now. Every engine and tray that exists is held. */
export async function holdingOf(act: Act, subject: Subject): Promise<Holding> {
  return found(await findHolding(act.sql, subject), 'holder of it, which cannot be: tell the lead');
}

/** The name of whoever holds it: somebody, a bay, a vendor or its owner. */
export async function holderNameOf(act: Act, { personId, restBayId, vendorId, ownerId }: Holding): Promise<string> {
  return findHolderName(act.sql, personId ?? restBayId ?? vendorId ?? ownerId ?? '');
}

/** Moves custody of a locked subject; the event that tells it is the caller's, since only it knows the act of the trade. */
export async function moveTo(
  act: Act,
  subject: Subject,
  move: { readonly to: Holder; readonly reason: string; readonly handoverId?: string },
): Promise<void> {
  await insertHolding(act.sql, { subject, movedById: act.actor.id, ...move });
}

/** Locks trays of one job, by id after the engine; refuses one that is unknown, of another job, or emptied. */
export async function takeTrayLocks(
  act: Act,
  { jobId, trayIds }: { readonly jobId: string; readonly trayIds: readonly string[] },
): Promise<readonly TrayRow[]> {
  const wanted = [...new Set(trayIds)];
  const trays = await lockTrays(act.sql, wanted);
  if (trays.length < wanted.length || trays.some((tray) => tray.jobId !== jobId)) {
    throw new ProblemError('not-found', 'One of these trays is no tray of this job. Read the trays again.');
  }
  const emptied = trays.find((tray) => tray.emptiedAt !== null);
  if (emptied !== undefined) {
    throw new ProblemError('conflict', `Tray ${emptied.label} was emptied when the engine was handed back.`);
  }
  return trays;
}

/** Refuses while the engine or one of the trays stands in an offer: what was offered must not change meanwhile. */
export async function refuseWhileOffered(
  act: Act,
  of: { readonly engineId?: string; readonly trayIds?: readonly string[] },
): Promise<void> {
  const [offer] = await findOffers(act.sql, { engineId: of.engineId ?? null, trayIds: of.trayIds ?? [] });
  if (offer !== undefined) {
    throw new ProblemError(
      'conflict',
      `${offer.giver} is handing it over to ${offer.receiver}. Wait for the answer, or let ${offer.giver} withdraw the offer.`,
      { handoverId: offer.id },
    );
  }
}

/** While the engine itself is at a vendor, nobody here touches it or knows how it stands. */
export async function refuseWhileAway(act: Act, engineId: string): Promise<void> {
  const holding = await holdingOf(act, { engineId });
  if (holding.vendorId === null) return;
  throw new ProblemError('conflict', `The engine is at ${await holderNameOf(act, holding)}: it comes back first.`);
}

/** What is done at the engine is done while it is here and nobody is handing it over. */
export async function refuseUnlessInHand(act: Act, engineId: string): Promise<void> {
  await refuseWhileAway(act, engineId);
  await refuseWhileOffered(act, { engineId });
}

/** Trays whose counts this viewer must not see yet, because somebody is to count them blind. */
export async function blindTrays(
  sql: Sql,
  of: { readonly jobId: string; readonly viewerId: string },
): Promise<ReadonlySet<string>> {
  return new Set(await findBlindTrays(sql, of));
}

/** Trays whose counts this viewer must not see yet, and pieces that lie in them, by their ids. */
export async function blindTraysAndPieces(sql: Sql, of: ForViewer): Promise<ReadonlySet<string>> {
  const rows = await findBlindPieces(sql, of);
  return new Set(rows.flatMap(({ trayId, pieceId }) => (pieceId === null ? [trayId] : [trayId, pieceId])));
}

/** What lies in trays whose counts this viewer must not see yet: labels of the trays, full names of the pieces. */
export async function blindContents(
  sql: Sql,
  of: ForViewer,
): Promise<{ readonly trays: ReadonlySet<string>; readonly pieces: ReadonlySet<string> }> {
  const rows = await findBlindPieces(sql, of);
  return {
    trays: new Set(rows.map(({ label }) => label)),
    pieces: new Set(rows.flatMap(({ name }) => name ?? [])),
  };
}

/** A reason against closing that a lead let pass names a piece and how many of it were loose or missing. */
export function reasonShownTo(reason: string, blindPieces: ReadonlySet<string>): string {
  const piece = [...blindPieces].find((name) => reason.includes(name));
  return piece === undefined ? reason : `${piece}: counted blind now`;
}

/**
 * The words of an obligation for one viewer: those that tell a count the viewer is yet to make themselves say less; a
 * difference that was counted again says what came of it.
 */
export type ShownWords = (obligationId: string, words: string) => string;

export async function wordsShownTo(sql: Sql, of: ForViewer): Promise<ShownWords> {
  const trayIds = await findBlindTrays(sql, of);
  const rows = trayIds.length === 0 ? [] : await findObligationsAbout(sql, trayIds);
  const instead = new Map(
    rows.map(({ id, label, piece }) => [
      id,
      `${piece}: counted otherwise than expected; it shows once ${countedAsOne(label)} is counted`,
    ]),
  );
  const again = new Map(
    (await findCountsAgain(sql, of)).map(({ id, counted, given }) => [
      id,
      `; counted again: ${counted}${counted === given ? ', as given' : ''}`,
    ]),
  );
  return (obligationId, words) => instead.get(obligationId) ?? `${words}${again.get(obligationId) ?? ''}`;
}

/**
 * At hand-back a job's trays are emptied and nobody holds them any more. Refuses while pieces are loose in one, one is
 * away, or one is being handed over. Returns the labels; the event is the caller's.
 */
export async function emptyTrays(act: Act, jobId: string): Promise<readonly string[]> {
  const open = (await findTrays(act.sql, jobId)).filter(({ emptiedAt }) => emptiedAt === null);
  const trays = await takeTrayLocks(act, { jobId, trayIds: open.map(({ id }) => id) });
  const trayIds = trays.map(({ id }) => id);
  await refuseWhileOffered(act, { trayIds });
  const away = open.find(({ holderKind }) => holderKind === 'vendor');
  if (away !== undefined) throw new ProblemError('not-closed', `Tray ${away.label} is still at ${away.holderName}.`);
  const [loose] = await findLooseIn(act.sql, { trayIds });
  if (loose !== undefined) {
    const label = trays.find(({ id }) => id === loose.trayId)?.label ?? '';
    throw new ProblemError('not-closed', `Tray ${label} still holds ${loose.loose} × ${loose.name}.`);
  }
  return emptyAllTrays(act.sql, jobId);
}

import type { Closed, Closing, ReasonAgainstClosing } from '#contracts/openings.ts';
import { may } from '#contracts/rights.ts';
import { againstClosingTheOpening } from '#domain/closing/closing-the-opening.ts';
import { blindTrays, holdingOf, refuseWhileOffered, wordsShownTo } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findFactsForClosing } from './closing-queries.ts';
import { isOfPieces, reasonInWords } from './closing-words.ts';
import { lockOpenOpening } from './open-opening.ts';
import { findPieces, findStepsOfPieces } from './piece-queries.ts';
import {
  findOpening,
  findOpenOpening,
  findOverride,
  insertCover,
  insertOpening,
  insertOverride,
  isOnOffer,
  type OpeningRow,
  updateClosed,
} from './queries.ts';

export { leaveInBoxes, lyingPieces, missingPieces, refuseStillIn } from './boxes-service.ts';
export { assemblyAtTheGate, looseFasteners } from './closing-service.ts';
export { giveBackLoose } from './give-back-service.ts';
export { shortOnTally } from './short-service.ts';

/** Opens the engine: from the first cover off until the opening is closed. At most one opening an engine. */
export async function openEngine(act: Act, jobId: string): Promise<{ id: string }> {
  const job = await openJob(act, jobId);
  const holding = await holdingOf(act, { engineId: job.engineId });
  if (holding.placeId === null)
    throw new ProblemError('conflict', 'The engine is not in the shop now. Take it back in first.');
  const open = await findOpenOpening(act.sql, job.engineId);
  if (open !== undefined) {
    throw new ProblemError('already-done', 'This engine is open already. Go on with that opening.', {
      openingId: open,
    });
  }
  const id = await insertOpening(act.sql, { engineId: job.engineId, jobId, openedById: act.actor.id });
  await act.event('opening.opened', { engineId: job.engineId, jobId, data: { openingId: id, number: job.number } });
  return { id };
}

/** Says whether the open engine is covered. */
export async function setCover(act: Act, asked: { readonly id: string; readonly covered: boolean }): Promise<void> {
  const opening = await lockOpenOpening(act, asked.id);
  if (opening.covered === asked.covered) {
    throw new ProblemError('already-done', `It is said to be ${asked.covered ? 'covered' : 'not covered'} already.`);
  }
  if (!asked.covered) await refuseWhileOffered(act, { engineId: opening.engineId });
  await insertCover(act.sql, { openingId: opening.id, covered: asked.covered, saidById: act.actor.id });
  await act.event(asked.covered ? 'opening.covered' : 'opening.uncovered', {
    engineId: opening.engineId,
    jobId: opening.jobId,
    data: { openingId: opening.id, depth: opening.depth },
  });
}

async function reasonsAgainst(sql: Sql, opening: OpeningRow, viewerId: string): Promise<ReasonAgainstClosing[]> {
  const ofJob = { jobId: opening.jobId, viewerId };
  const [blind, shown] = [await blindTrays(sql, ofJob), await wordsShownTo(sql, ofJob)];
  const pieces = await findPieces(sql, opening.id);
  const hidden = new Set(
    pieces.filter(({ trayIds }) => trayIds.some((trayId) => blind.has(trayId))).map(({ id }) => id),
  );
  const reasons = againstClosingTheOpening(await findFactsForClosing(sql, opening));
  const pieceSteps = reasons.some(isOfPieces)
    ? await findStepsOfPieces(sql, { jobId: opening.jobId, openingId: opening.id })
    : [];
  return reasons.map((reason) =>
    reasonInWords(
      reason.kind === 'obligation-open' ? { ...reason, what: shown(reason.obligationId, reason.what) } : reason,
      { blind: hidden, pieceSteps, jobId: opening.jobId, engineId: opening.engineId },
    ),
  );
}

/** What speaks against closing an opening now. */
export async function getClosing(sql: Sql, of: { readonly id: string; readonly viewerId: string }): Promise<Closing> {
  const opening = found(await findOpening(sql, of.id), 'such opening');
  const openingId = opening.id;
  if (opening.leftInBoxes) return { openingId, mayClose: false, reasons: [], closed: null };
  const { closedAt: at, closedById: id, closedBy: name } = opening;
  if (at !== null && id !== null && name !== null) {
    const override = (await findOverride(sql, openingId)) ?? null;
    return { openingId, mayClose: false, reasons: [], closed: { by: { id, name }, at, override } };
  }
  const reasons = await reasonsAgainst(sql, opening, of.viewerId);
  return { openingId, mayClose: reasons.length === 0, reasons, closed: null };
}

/** What no lead overrides: a layer that is off is no closed engine, and what may be in it is looked for first. */
const neverOverridden: ReadonlySet<ReasonAgainstClosing['kind']> = new Set([
  'layer-off',
  'may-be-inside',
  'put-in-still-in',
]);

async function overrideOrRefuse(
  act: Act,
  {
    opening,
    reasons,
    words,
  }: { opening: OpeningRow; reasons: readonly ReasonAgainstClosing[]; words?: string | undefined },
): Promise<void> {
  const many = reasons.length === 1 ? 'one thing is' : `${reasons.length} things are`;
  const refused = (why: string, of = reasons) =>
    new ProblemError('not-closed', `Not closed, ${why} ${of.map((reason) => reason.words).join(' ')}`.trim(), {
      reasons,
    });
  if (words === undefined) throw refused(`${many} open.`);
  if (!may(act.actor.roles, 'lead')) throw new ProblemError('not-allowed', 'Only a lead closes over open reasons.');
  const firm = reasons.filter(({ kind }) => neverOverridden.has(kind));
  if (firm.length > 0) throw refused('and nobody closes it so.', firm);
  if (await isOnOffer(act.sql, opening.jobId)) {
    throw refused('something of it is being handed over and is counted first.', []);
  }
  await insertOverride(act.sql, {
    openingId: opening.id,
    jobId: opening.jobId,
    reasons: reasons.map((reason) => reason.words),
    words: words.trim(),
    byId: act.actor.id,
  });
}

/** Closes the opening and signs for it, or refuses with every reason; a lead may close over them, by name and reason. */
export async function closeOpening(
  act: Act,
  asked: { readonly id: string; readonly note?: string | undefined; readonly override?: string | undefined },
): Promise<Closed> {
  const opening = await lockOpenOpening(act, asked.id);
  await refuseWhileOffered(act, { engineId: opening.engineId });
  const reasons = await reasonsAgainst(act.sql, opening, act.actor.id);
  if (reasons.length > 0) await overrideOrRefuse(act, { opening, reasons, words: asked.override });
  const { id, jobId } = opening;
  const note = asked.note?.trim() ?? '';
  const closed = found(await updateClosed(act.sql, { id, jobId, closedById: act.actor.id, note }), 'opening');
  await act.event('opening.closed', {
    engineId: opening.engineId,
    jobId,
    data: {
      openingId: id,
      minutesOpen: closed.minutesOpen,
      note,
      overridden: reasons.map(({ words }) => words),
      reason: reasons.length > 0 ? (asked.override?.trim() ?? '') : '',
    },
  });
  return { id, ...closed };
}

import type { Accepted, CountTray, HandoverTray, OfferHandover } from '#contracts/custody.ts';
import { may } from '#contracts/rights.ts';
import { type CountComparison, compareCounts, countedAsOne } from '#domain/custody/counting.ts';
import type { EngineEventKind } from '#domain/custody/engine-events.ts';
import { actOnHandover, type HandoverAct, type HandoverRefusal } from '#domain/custody/handover.ts';
import { openJob } from '#features/intake/service.ts';
import { openObligation } from '#features/obligations/service.ts';
import { looseFasteners } from '#features/openings/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { differenceInWords } from './counting-service.ts';
import {
  endOffer,
  findEngineOfHandover,
  findHandover,
  findLines,
  findOpenObligations,
  type HandoverRow,
  insertCounts,
  insertHandover,
  insertHandoverTray,
  insertLines,
  insertOfferedState,
  type LineRow,
  type NewLine,
} from './handover-queries.ts';
import { differencesOf, trayOf } from './handover-view.ts';
import { findBayInUse, findPerson, findStanding, type Holding, type Subject } from './queries.ts';
import {
  holderNameOf,
  holdingOf,
  moveTo,
  refuseWhileOffered,
  type TrayRow,
  takeEngineLock,
  takeTrayLocks,
} from './service.ts';
import { stateInWords } from './state-words.ts';
import { findLooseIn } from './tray-queries.ts';

const ATTEMPTS = 3;

/** Locks the engine a handover is about, then reads the handover: what is read stays so to the end of the act. */
async function lockHandover(act: Act, id: string): Promise<HandoverRow> {
  await takeEngineLock(act, found(await findEngineOfHandover(act.sql, id), 'such handover'));
  return found(await findHandover(act.sql, id), 'such handover');
}

async function receiverOf(act: Act, receiverId: string) {
  if (receiverId === act.actor.id) throw new ProblemError('refused', 'Nobody hands over to themselves.');
  const receiver = found(await findPerson(act.sql, receiverId), 'such person');
  if (!may(receiver.roles, 'bench')) {
    throw new ProblemError('refused', `${receiver.name} does not work at the benches, and so can't receive an engine.`);
  }
  return receiver;
}

async function refuseUnlessHeld(act: Act, subject: Subject, name: string): Promise<Holding> {
  const holding = await holdingOf(act, subject);
  if (holding.personId === act.actor.id) return holding;
  throw new ProblemError(
    'conflict',
    `You don't hold ${name}: ${await holderNameOf(act, holding)} does. Only who holds it can hand it over.`,
  );
}

/** What the receiver counts in a tray: its loose pieces; a thing that travels alone, once; an empty tray, none. */
function linesOf(tray: TrayRow, loose: readonly NewLine[]): readonly NewLine[] {
  if (loose.length > 0) return loose;
  return [{ trayId: tray.id, pieceId: null, name: tray.alone ? tray.name : 'pieces in it', given: tray.alone ? 1 : 0 }];
}

/** Offers an engine, trays of it, or both. The giver holds all of it until the receiver accepts. */
export async function offerHandover(act: Act, jobId: string, asked: OfferHandover): Promise<{ id: string }> {
  if (!asked.includeEngine && asked.trayIds.length === 0) {
    throw new ProblemError('refused', 'Say what goes over: the engine, trays, or both.');
  }
  const job = await openJob(act, jobId);
  const receiver = await receiverOf(act, asked.receiverId);
  const place = found(await findBayInUse(act.sql, asked.placeId), 'such bay');
  const trays = await takeTrayLocks(act, { jobId, trayIds: asked.trayIds });
  if (asked.includeEngine) await refuseUnlessHeld(act, { engineId: job.engineId }, 'the engine');
  for (const { id, label } of trays) await refuseUnlessHeld(act, { trayId: id }, `tray ${label}`);
  const trayIds = trays.map(({ id }) => id);
  await refuseWhileOffered(act, { ...(asked.includeEngine ? { engineId: job.engineId } : {}), trayIds });
  const stateWords = stateInWords(await findStanding(act.sql, job.engineId));
  const looseWords = asked.looseWords?.trim() ?? '';
  const id = await insertHandover(act.sql, {
    jobId,
    engineId: asked.includeEngine ? job.engineId : null,
    giverId: act.actor.id,
    receiverId: receiver.id,
    placeId: place.id,
    stateWords,
    looseWords,
  });
  const loose = await findLooseIn(act.sql, { trayIds, besideOf: asked.includeEngine ? { jobId } : undefined });
  for (const tray of trays) {
    const given = loose
      .filter(({ trayId }) => trayId === tray.id)
      .map(({ trayId, pieceId, name, loose: count }) => ({ trayId, pieceId, name, given: count }));
    await insertHandoverTray(act.sql, { handoverId: id, trayId: tray.id, lines: linesOf(tray, given) });
  }
  const beside = loose
    .filter(({ trayId }) => trayId === job.engineId)
    .map(({ pieceId, name, loose: given }) => ({ trayId: null, pieceId, name, given }));
  await insertLines(act.sql, { handoverId: id, lines: beside });
  const obligations = await findOpenObligations(act.sql, jobId);
  const fasteners = await looseFasteners(act.sql, jobId);
  await insertOfferedState(act.sql, { handoverId: id, obligations, loose: fasteners });
  await act.event('handover.offered', {
    engineId: job.engineId,
    jobId,
    data: {
      handoverId: id,
      receiver: receiver.name,
      place: place.name,
      engine: asked.includeEngine,
      trays: trays.map(({ label }) => label),
      state: stateWords,
      loose: looseWords,
      fasteners: fasteners.map(({ name, stage, positions }) => `${name}, stage ${stage}: ${positions.length}`),
    },
  });
  return { id };
}

/**
 * Takes the receiver's count of one tray, up to three times; only then do the giver's numbers show. So each difference
 * opens its obligation with the count that finds it: whoever counts again knows the number to count.
 */
export async function countTray(
  act: Act,
  { handoverId, trayId }: { readonly handoverId: string; readonly trayId: string },
  asked: CountTray,
): Promise<HandoverTray> {
  const handover = await lockHandover(act, handoverId);
  if (handover.endedAt !== null) throw alreadyAnswered(handover);
  if (handover.receiverId !== act.actor.id) {
    throw new ProblemError('not-allowed', `${handover.receiver} is to count this tray, nobody else.`);
  }
  const inTray = (lines: readonly LineRow[]) => lines.filter((line) => line.trayId === trayId);
  const before = inTray(await findLines(act.sql, handoverId));
  const [first] = found(before.length === 0 ? undefined : before, 'such tray in this handover');
  const attempt = (first?.attempts ?? 0) + 1;
  if (attempt > ATTEMPTS) {
    throw new ProblemError('refused', `This tray was counted ${ATTEMPTS} times. Accept it as it is, or decline.`);
  }
  refuseUnlessEachOnce(before, asked.lines);
  await insertCounts(act.sql, { attempt, countedById: act.actor.id, lines: asked.lines });
  const counted = await raiseDifferences(act, handover, inTray(await findLines(act.sql, handoverId)));
  const tray = trayOf(counted, false);
  await act.event('tray.counted', {
    engineId: handover.engineId,
    jobId: handover.jobId,
    data: {
      handoverId,
      tray: tray.label,
      attempt,
      agrees: tray.differences.length === 0,
      differences: tray.differences,
    },
  });
  return tray;
}

function refuseUnlessEachOnce(lines: readonly LineRow[], counts: CountTray['lines']): void {
  const known = new Set(lines.map(({ lineId }) => lineId));
  const counted = new Set(counts.map(({ lineId }) => lineId));
  if (counts.some(({ lineId }) => !known.has(lineId)) || counted.size < counts.length) {
    throw new ProblemError('refused', 'Send each line of this tray once, and no other. Read the handover again.');
  }
  const missing = lines.filter(({ lineId }) => !counted.has(lineId)).map(({ name }) => name);
  if (missing.length > 0) throw new ProblemError('refused', `Count these as well: ${missing.join(', ')}.`);
}

/** Accepts what was counted: with a difference if one stays. Custody moves; what the counts opened stands. */
export async function acceptHandover(act: Act, id: string): Promise<Accepted> {
  const handover = await lockHandover(act, id);
  const lines = await findLines(act.sql, id);
  refuseUnlessCounted(handover, act.actor.id, lines);
  const comparison = comparisonOf(lines);
  const kind = comparison.kind === 'differ' ? 'accept with a difference' : 'accept';
  const outcome = decide(handover, { kind, by: act.actor.id, comparison });
  if (outcome !== 'accepted' && outcome !== 'accepted with a difference') throw alreadyAnswered(handover);
  const trayIds = lines.map(({ trayId }) => trayId).filter((trayId) => trayId !== handover.engineId);
  const trays = await takeTrayLocks(act, { jobId: handover.jobId, trayIds });
  await endOffer(act.sql, { id, outcome, byId: act.actor.id, reason: '' });
  const to = { personId: handover.receiverId, placeId: handover.placeId };
  const move = { to, reason: `handed over by ${handover.giver}`, handoverId: id };
  if (handover.includesEngine) await moveTo(act, { engineId: handover.engineId }, move);
  for (const tray of trays) await moveTo(act, { trayId: tray.id }, move);
  // Counts kept by an earlier version opened nothing yet.
  const raised = await raiseDifferences(act, handover, lines);
  const obligations = raised.flatMap(({ obligationId }) => obligationId ?? []);
  const differences = differencesOf(lines);
  await act.event('handover.accepted', {
    engineId: handover.engineId,
    jobId: handover.jobId,
    data: {
      handoverId: id,
      outcome,
      giver: handover.giver,
      receiver: handover.receiver,
      place: handover.place,
      engine: handover.includesEngine,
      trays: trays.map(({ label }) => label),
      differences: differences.map(differenceInWords),
    },
  });
  return { outcome, differences, obligations };
}

function refuseUnlessCounted(handover: HandoverRow, by: string, lines: readonly LineRow[]): void {
  if (handover.endedAt !== null || handover.receiverId !== by) return;
  const uncounted = [...new Set(lines.filter(({ counted }) => counted === null).map(({ label }) => label))];
  if (uncounted.length === 0) return;
  throw new ProblemError('refused', `Count ${uncounted.map(countedAsOne).join(', ')} first, then accept.`);
}

/** Each line is compared by itself, so that a difference leads to its line. */
function comparisonOf(lines: readonly LineRow[]): CountComparison {
  const line = ({ trayId, lineId, name }: LineRow, count: number) => ({ trayId, pieceId: lineId, piece: name, count });
  return compareCounts(
    lines.map((row) => line(row, row.given)),
    lines.map((row) => line(row, row.counted ?? 0)),
  );
}

/** Opens one obligation for each line that was counted otherwise than given, unless a count of it has opened one already. */
async function raiseDifferences(
  act: Act,
  handover: HandoverRow,
  lines: readonly LineRow[],
): Promise<readonly LineRow[]> {
  const inside = (await findStanding(act.sql, handover.engineId)) !== undefined;
  const after: LineRow[] = [];
  for (const line of lines) {
    const [difference] = differencesOf([line]);
    if (difference === undefined || line.obligationId !== null) {
      after.push(line);
      continue;
    }
    const { engineId, jobId } = handover;
    const cause = { handoverLineId: line.lineId };
    const words = differenceInWords(difference);
    after.push({ ...line, obligationId: await openObligation(act, { engineId, jobId, words, inside, cause }) });
  }
  return after;
}

export async function declineHandover(
  act: Act,
  asked: { readonly id: string; readonly reason: string },
): Promise<void> {
  const handover = await lockHandover(act, asked.id);
  const reason = asked.reason.trim();
  decide(handover, { kind: 'decline', by: act.actor.id, reason });
  await endOffer(act.sql, { id: asked.id, outcome: 'declined', byId: act.actor.id, reason });
  await tellEnd(act, 'handover.declined', handover, reason);
}

export async function withdrawHandover(act: Act, id: string): Promise<void> {
  const handover = await lockHandover(act, id);
  decide(handover, { kind: 'withdraw', by: act.actor.id });
  await endOffer(act.sql, { id, outcome: 'withdrawn', byId: act.actor.id, reason: '' });
  await tellEnd(act, 'handover.withdrawn', handover, '');
}

async function tellEnd(act: Act, kind: EngineEventKind, handover: HandoverRow, reason: string): Promise<void> {
  const { id: handoverId, engineId, jobId, giver, receiver } = handover;
  await act.event(kind, { engineId, jobId, data: { handoverId, giver, receiver, reason } });
}

function decide(handover: HandoverRow, asked: HandoverAct) {
  const { giverId, receiverId, outcome } = handover;
  const step = actOnHandover({ standing: outcome ?? 'offered', giverId, receiverId }, asked);
  if (!step.ok) throw refusalOf(step.reason, handover);
  return step.standing;
}

const alreadyAnswered = ({ outcome, receiver, giver }: HandoverRow): ProblemError =>
  new ProblemError(
    'already-done',
    `This handover from ${giver} to ${receiver} was answered already: it is ${outcome ?? 'offered'}. Nothing was changed.`,
    { outcome },
  );

function refusalOf(reason: HandoverRefusal, handover: HandoverRow): ProblemError {
  switch (reason.kind) {
    case 'already-answered':
      return alreadyAnswered(handover);
    case 'not-the-receiver':
      return new ProblemError('not-allowed', `${handover.receiver} is to answer this handover, nobody else.`);
    case 'not-the-giver':
      return new ProblemError(
        'not-allowed',
        `${handover.giver} made this offer, and only ${handover.giver} withdraws it.`,
      );
    case 'reason-missing':
      return new ProblemError('refused', 'Say why it is declined.');
    case 'count-differs':
    case 'count-agrees':
    case 'count-not-whole':
      return new ProblemError('refused', 'The counts changed meanwhile. Read the handover again.');
  }
}

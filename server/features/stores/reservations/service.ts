import type { AskToReserve, ReleaseReserved, Reserved } from '#contracts/demands.ts';
import { type KitLine, type KitPlan, type NamedShortage, type PlannedReservation, planKit } from '#domain/stock/kit.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { ProblemError } from '#platform/problem.ts';
import { type LineToServe, lockLines, lockLinesOfJob, recordStock, type Standing } from '../ledger/queries.ts';
import { moveOnLine, openLine, partOf, sharesOf } from '../ledger/service.ts';
import { findExpired, type LotToPromise, lockLotsForJob, prolongHolds } from './queries.ts';

interface Asking {
  readonly jobId: string;
  readonly lineIds: readonly string[] | undefined;
}

/**
 * Asks to reserve what a job wants. Never refused for want of stock: all of it is reserved, or (all or nothing) none and
 * what is missing is short by name, or (partial) what there is, and the rest is short. Three statements, beside the
 * locks of engine and job and the event.
 */
export async function reserve(act: Act, asked: AskToReserve & { readonly jobId: string }): Promise<Reserved> {
  refusePastExpiry(asked.expiresAt);
  const job = await openJob(act, asked.jobId);
  const asking = { jobId: job.id, lineIds: asked.demandLineIds };
  const lots = await freeExpired(act, asking, await lockLotsForJob(act.sql, asking));
  const lines = await lockLinesOfJob(act.sql, asking);
  refuseUnknownLines(lines, asking.lineIds);

  const plan = planFor(lines, lots, asked.allOrNothing);
  await recordPlan(act, { plan, lines, jobId: job.id, expiresAt: asked.expiresAt });
  const reply = replyOf(plan, lines);
  if (plan.reservations.length + plan.shortages.length > 0) {
    await act.event(reply.complete ? 'kit.reserved' : 'part.short', {
      engineId: job.engineId,
      jobId: job.id,
      data: {
        allOrNothing: asked.allOrNothing,
        reserved: reply.reserved.map(({ part, quantity }) => ({ part: part.number, quantity })),
        short: reply.shortages.map(({ part, missing }) => ({ part: part.number, name: part.name, missing })),
      },
    });
  }
  return reply;
}

function refusePastExpiry(expiresAt: string | undefined): void {
  if (expiresAt === undefined || Date.parse(expiresAt) > Date.now()) return;
  throw new ProblemError('refused', 'The reservation would end before it begins. Say a later expiresAt.', {
    errors: [{ pointer: '/expiresAt', detail: 'is not in the future' }],
  });
}

function refuseUnknownLines(lines: readonly LineToServe[], asked: readonly string[] | undefined): void {
  const unknown = asked?.filter((id) => !lines.some((line) => line.id === id)) ?? [];
  if (unknown.length === 0) return;
  throw new ProblemError('not-found', `This job has no demand line ${unknown.join(', ')}.`, {
    errors: [{ pointer: '/demandLineIds', detail: 'names a line that is not of this job' }],
  });
}

const openCount = ({ notAsked, short }: Standing): number => notAsked + short;

/** What a line still asks for: shims of exactly the thickness chosen for a valve first, then any lot of the part. */
function wishesOf(line: LineToServe): readonly KitLine[] {
  const { id, partId } = line;
  const open = openCount(line);
  const chosen = line.chosenNm.slice(line.reserved + line.issued).slice(0, open);
  const rest = open - chosen.length;
  return [
    ...chosen.map((nm) => ({ id, partId, count: 1, thickness: nanometres(nm) })),
    ...(rest > 0 ? [{ id, partId, count: rest, thickness: null }] : []),
  ];
}

function planFor(lines: readonly LineToServe[], lots: readonly LotToPromise[], allOrNothing: boolean): KitPlan {
  const plan = planKit(lines.flatMap(wishesOf), lots, allOrNothing ? 'whole' : 'partial');
  const shortages = new Map<string, NamedShortage>();
  for (const line of lines) {
    const own = plan.shortages.filter(({ lineId }) => lineId === line.id);
    const missing = own.reduce((sum, shortage) => sum + shortage.missing, 0);
    const wanted = openCount(line);
    if (missing > 0)
      shortages.set(line.id, { lineId: line.id, partId: line.partId, wanted, available: wanted - missing, missing });
  }
  return { reservations: together(plan.reservations), shortages: [...shortages.values()] };
}

/** Several wishes of one line may be served from one lot: that is one reservation. */
function together(reservations: readonly PlannedReservation[]): readonly PlannedReservation[] {
  const byLineAndLot = new Map<string, PlannedReservation>();
  for (const reservation of reservations) {
    const key = `${reservation.lineId} ${reservation.lotId}`;
    const count = (byLineAndLot.get(key)?.count ?? 0) + reservation.count;
    byLineAndLot.set(key, { ...reservation, count });
  }
  return [...byLineAndLot.values()];
}

function standingAfter(line: LineToServe, plan: KitPlan): Standing {
  const got = plan.reservations.reduce((sum, { lineId, count }) => sum + (lineId === line.id ? count : 0), 0);
  const short = plan.shortages.find(({ lineId }) => lineId === line.id)?.missing ?? 0;
  return {
    id: line.id,
    reserved: line.reserved + got,
    short,
    issued: line.issued,
    cancelled: line.cancelled,
    notAsked: openCount(line) - got - short,
  };
}

async function recordPlan(
  act: Act,
  of: {
    readonly plan: KitPlan;
    readonly lines: readonly LineToServe[];
    readonly jobId: string;
    readonly expiresAt: string | undefined;
  },
): Promise<void> {
  const { plan, lines, jobId, expiresAt } = of;
  await recordStock(act.sql, {
    moves: plan.reservations.map(({ lineId, lotId, count }) => ({
      act: 'reserve',
      lotId,
      reserved: count,
      demandLineId: lineId,
      jobId,
    })),
    holds: plan.reservations.map(({ lineId, lotId, count }) => ({ demandLineId: lineId, lotId, count })),
    standings: lines.filter((line) => openCount(line) > 0).map((line) => standingAfter(line, plan)),
    byId: act.actor.id,
    expiresAt,
  });
  const held = lines.filter((line) => line.reserved > 0).map(({ id }) => id);
  if (held.length > 0) await prolongHolds(act.sql, held, expiresAt);
}

function replyOf(plan: KitPlan, lines: readonly LineToServe[]): Reserved {
  const byId = new Map(lines.map((line) => [line.id, partOf(line)]));
  const part = (lineId: string) => byId.get(lineId) ?? { id: lineId, number: '', name: '' };
  const shortages = plan.shortages.map(({ lineId, wanted, available, missing }) => ({
    demandLineId: lineId,
    part: part(lineId),
    wanted,
    available,
    missing,
  }));
  const reserved = plan.reservations.map(({ lineId, lotId, count }) => ({
    demandLineId: lineId,
    part: part(lineId),
    lotId,
    quantity: count,
  }));
  const missing = shortages.map((short) => `${short.missing} × ${short.part.name} (${short.part.number})`).join(', ');
  const pieces = reserved.reduce((sum, { quantity }) => sum + quantity, 0);
  return {
    complete: shortages.length === 0,
    reserved,
    shortages,
    words:
      shortages.length === 0
        ? `Reserved: ${pieces}. Nothing is short.`
        : `${pieces === 0 ? 'Nothing was reserved' : `Reserved: ${pieces}`}. Short: ${missing}.`,
  };
}

/**
 * Reservations held for a yes that has not come in time give way to whoever asks: their pieces count as not asked for
 * again. Lines of both jobs are locked together, by id.
 */
async function freeExpired(
  act: Act,
  { jobId }: Asking,
  lots: readonly LotToPromise[],
): Promise<readonly LotToPromise[]> {
  const stale = lots.filter((lot) => lot.expired).map(({ id }) => id);
  if (stale.length === 0) return lots;
  const expired = await findExpired(act.sql, stale);
  const lineIds = expired.map(({ demandLineId }) => demandLineId);
  const lines = (await lockLines(act.sql, lineIds, jobId)).filter(({ id }) => lineIds.includes(id));
  const jobOf = new Map(lines.map((line) => [line.id, line.jobId]));
  const countIn = (of: (hold: (typeof expired)[number]) => boolean) =>
    expired.filter(of).reduce((sum, { count }) => sum + count, 0);
  await recordStock(act.sql, {
    moves: expired.map(({ lotId, demandLineId, count }) => ({
      act: 'release',
      lotId,
      reserved: -count,
      demandLineId,
      ...jobIdOf(jobOf.get(demandLineId)),
      reason: 'the time it was held for ran out',
    })),
    holds: expired.map(({ lotId, demandLineId, count }) => ({ lotId, demandLineId, count: -count })),
    standings: lines.map((line) =>
      moveOnLine(line, 'reserved', { to: 'notAsked', count: countIn(({ demandLineId }) => demandLineId === line.id) }),
    ),
    byId: act.actor.id,
  });
  return lots.map((lot) => ({ ...lot, reserved: lot.reserved - countIn(({ lotId }) => lotId === lot.id) }));
}

const jobIdOf = (jobId: string | undefined) => (jobId === undefined ? {} : { jobId });

/** Gives reserved pieces of a line back to stock; the job may ask for them again. */
export async function release(
  act: Act,
  asked: ReleaseReserved & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const { job, line, lots, held } = await openLine(act, asked.demandLineId);
  const count = asked.quantity ?? Math.max(1, line.reserved);
  const standing = moveOnLine(line, 'reserved', { to: 'notAsked', count });
  const shares = sharesOf(held, lots, count);
  const reason = asked.reason?.trim() ?? '';
  await recordStock(act.sql, {
    moves: shares.map((share) => ({
      act: 'release',
      lotId: share.lotId,
      reserved: -share.count,
      demandLineId: line.id,
      jobId: job.id,
      reason,
    })),
    holds: shares.map((share) => ({ demandLineId: line.id, lotId: share.lotId, count: -share.count })),
    standings: [standing],
    byId: act.actor.id,
  });
  await act.event('part.released', {
    engineId: job.engineId,
    jobId: job.id,
    data: { part: line.number, name: line.name, quantity: count, reason },
  });
  return { jobId: job.id };
}

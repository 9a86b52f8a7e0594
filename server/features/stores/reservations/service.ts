import type { AskToReserve, ReleaseReserved, Reserved } from '#contracts/demands.ts';
import type { KitPlan } from '#domain/stock/kit.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act, AnyAct } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findHeldUntil } from '../holds/queries.ts';
import { type LineToServe, lockLines, lockLinesOfJob, recordStock, type Standing } from '../ledger/queries.ts';
import { moveOnLine, openLine, sharesOf } from '../ledger/service.ts';
import { openCount, planFor, replyOf, standingAfter } from './plan.ts';
import { lockLots, lockLotsForJob, prolongHolds } from './queries.ts';

/** Holds that ran out lie on what is asked for. Each is let go under the locks of its own job before it is asked again. */
export class HoldsRanOut extends Error {}

/**
 * Asks to reserve what a job wants. Never refused for want of stock: all of it is reserved, or (all or nothing) none and
 * what is missing is short by name, or (partial) what there is, and the rest is short. Without a yes, and where nobody says
 * another day, until the day of the shop's rule. Four statements, beside the
 * locks of engine and job and the event. Throws HoldsRanOut where some did, unless they are taken as they stand.
 */
export async function reserve(
  act: Act,
  asked: AskToReserve & { readonly jobId: string; readonly asTheyStand: boolean },
): Promise<Reserved> {
  refusePastExpiry(asked.expiresAt);
  const job = await openJob(act, asked.jobId);
  const of = { jobId: job.id, lineIds: asked.demandLineIds };
  const lots = await lockLotsForJob(act.sql, of);
  if (lots.some(({ expired }) => expired) && !asked.asTheyStand) throw new HoldsRanOut();
  const lines = await lockLinesOfJob(act.sql, of);
  refuseUnknownLines(lines, of.lineIds);

  const usualUntil = asked.expiresAt === undefined ? await findHeldUntil(act.sql, job.id) : undefined;
  const asking = { allOrNothing: asked.allOrNothing, expiresAt: asked.expiresAt ?? usualUntil };
  const plan = planFor(lines, lots, asked.allOrNothing);
  const standings = lines.filter((line) => openCount(line) > 0).map((line) => standingAfter(line, plan, asking));
  await recordPlan(act, { plan, standings, jobId: job.id, expiresAt: asked.expiresAt, usualUntil });
  const held = lines.filter((line) => line.reserved > 0).map(({ id }) => id);
  if (held.length > 0 && usualUntil === undefined) await prolongHolds(act.sql, held, asked.expiresAt);
  const reply = replyOf(plan, lines);
  await tellPlan(act, { job, allOrNothing: asked.allOrNothing, reply });
  return reply;
}

/** What an asking came to, on the job's own line of events; nothing where nothing was left to ask for. */
export async function tellPlan(
  act: AnyAct,
  of: {
    readonly job: { readonly id: string; readonly engineId: string };
    readonly allOrNothing: boolean;
    readonly reply: Reserved;
  },
): Promise<void> {
  const { job, reply } = of;
  if (reply.reserved.length + reply.shortages.length === 0) return;
  await act.event(reply.complete ? 'kit.reserved' : 'part.short', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      allOrNothing: of.allOrNothing,
      reserved: reply.reserved.map(({ part, quantity }) => ({ part: part.number, quantity })),
      short: reply.shortages.map(({ part, missing, rule }) => ({
        part: part.number,
        name: part.name,
        missing,
        ...(rule === '' ? {} : { words: `${part.name} ${rule}` }),
      })),
    },
  });
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

/** Writes a plan down: movements, holds, and where the lines stand after it. */
export async function recordPlan(
  act: AnyAct,
  of: {
    readonly plan: KitPlan;
    readonly standings: readonly Standing[];
    readonly jobId: string;
    readonly expiresAt: string | undefined;
    readonly usualUntil?: string | undefined;
  },
): Promise<void> {
  const { plan, jobId } = of;
  await recordStock(act.sql, {
    moves: plan.reservations.map(({ lineId, lotId, count }) => ({
      act: 'reserve',
      lotId,
      reserved: count,
      demandLineId: lineId,
      jobId,
    })),
    holds: plan.reservations.map(({ lineId, lotId, count }) => ({ demandLineId: lineId, lotId, count })),
    standings: of.standings,
    byId: act.actor?.id ?? null,
    expiresAt: of.expiresAt,
    usualUntil: of.usualUntil,
  });
}

/** Gives reserved pieces of a line back to stock; the job may ask for them again. */
export async function release(
  act: Act,
  asked: ReleaseReserved & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const { job, line, lots, held } = await openLine(act, asked.demandLineId);
  const count = asked.quantity ?? Math.max(1, line.reserved);
  const standing = {
    ...moveOnLine(line, 'reserved', { to: 'notAsked', count }),
    asking: { whole: false, until: null },
  };
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

/** Pieces that a demand line is to get out of one lot; without a lot they are short: to be bought. */
export interface FromLot {
  readonly demandLineId: string;
  readonly lotId: string | null;
  readonly count: number;
}

/**
 * Reserves out of the very lots that were chosen (a shim by its measured thickness), all or nothing: refused when one of
 * them has not so many any more. For lines that were just demanded; the caller holds the job and tells of it.
 */
export async function reserveFromLots(act: Act, of: { readonly jobId: string; readonly from: readonly FromLot[] }) {
  const wanted = of.from.filter(({ count }) => count > 0);
  const taken = wanted.flatMap(({ lotId, ...piece }) => (lotId === null ? [] : [{ ...piece, lotId }]));
  const lots = await lockLots(
    act.sql,
    taken.map(({ lotId }) => lotId),
  );
  for (const { id, number, onHand, reserved } of lots) {
    const count = taken.reduce((sum, piece) => sum + (piece.lotId === id ? piece.count : 0), 0);
    if (onHand - reserved >= count) continue;
    throw new ProblemError(
      'stock-short',
      `Of ${number} there are ${onHand - reserved} left to reserve, not ${count}.`,
      {
        there: onHand - reserved,
        asked: count,
      },
    );
  }
  const standings = new Map<string, LineToServe>();
  for (const line of await lockLines(act.sql, [...new Set(wanted.map(({ demandLineId }) => demandLineId))])) {
    standings.set(line.id, line);
  }
  for (const { demandLineId, lotId, count } of wanted) {
    const line = found(standings.get(demandLineId), 'such demand line');
    const to = lotId === null ? 'short' : 'reserved';
    standings.set(demandLineId, { ...line, ...moveOnLine(line, 'notAsked', { to, count }) });
  }
  await recordStock(act.sql, {
    moves: taken.map(({ demandLineId, lotId, count }) => ({
      act: 'reserve',
      lotId,
      reserved: count,
      demandLineId,
      jobId: of.jobId,
    })),
    holds: taken,
    standings: [...standings.values()],
    byId: act.actor.id,
    usualUntil: await findHeldUntil(act.sql, of.jobId),
  });
}

import type { ReassignReserved } from '#contracts/demands.ts';
import { ruleWords } from '#domain/stock/lot-rule.ts';
import type { LotShare } from '#domain/stock/lots.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findHeldUntil } from '../holds/queries.ts';
import {
  findHeld,
  type HeldPieces,
  type LineToServe,
  type LockedLot,
  lockLines,
  lockLotsOfLine,
  recordStock,
} from '../ledger/queries.ts';
import { shortAgain } from '../ledger/service.ts';
import { planFor, taken } from './plan.ts';
import { findReassigned, insertReassignment, type LineToReassign } from './queries.ts';

/**
 * Gives reserved pieces of one job to another that wants the same part, or one that they may serve. What the first gives up is short there and is
 * served again in its turn; both are told. Engines are locked by id, so that two who trade do not wait for each other.
 */
export async function reassign(
  act: Act,
  asked: ReassignReserved & { readonly demandLineId: string },
): Promise<{ readonly jobId: string }> {
  const reason = asked.reason.trim();
  const lines = await findReassigned(act.sql, { lineId: asked.demandLineId, toJobId: asked.toJobId });
  const from = found(
    lines.find(({ id }) => id === asked.demandLineId),
    'such demand line',
  );
  if (from.jobId === asked.toJobId) throw refusedAt('/toJobId', 'That is the job which has the pieces already.');
  const to = lines.find(({ id }) => id !== from.id);
  if (to === undefined) {
    throw refusedAt('/toJobId', `That job does not want ${from.name} (${from.number}). Ask for it there first.`);
  }
  for (const { jobId } of [from, to].toSorted((a, b) => (a.engineId < b.engineId ? -1 : 1))) await openJob(act, jobId);
  const lots = await lockLotsOfLine(act.sql, from.id);
  const locked = await lockLines(act.sql, [from.id, to.id]);
  const [giver, taker] = [from, to].map(({ id }) =>
    found(
      locked.find((line) => line.id === id),
      'such demand line',
    ),
  );
  if (giver === undefined || taker === undefined) throw new Error('two lines were locked');
  const served = taken(taker, asked.quantity);
  const held = await findHeld(act.sql, from.id);
  const shares = sharesFor(taker, { held, lots, count: asked.quantity });
  const there = shares.reduce((sum, { count }) => sum + count, 0);
  refuseUnless(there, { giver, taker, asked: asked.quantity });
  const move = { demandLineId: giver.id, jobId: giver.jobId, reason };
  await recordStock(act.sql, {
    moves: shares.flatMap(({ lotId, count }) => [
      { lotId, act: 'release' as const, reserved: -count, ...move },
      { lotId, act: 'reserve' as const, reserved: count, demandLineId: taker.id, jobId: taker.jobId, reason },
    ]),
    holds: shares.flatMap(({ lotId, count }) => [
      { demandLineId: giver.id, lotId, count: -count },
      { demandLineId: taker.id, lotId, count },
    ]),
    standings: [
      shortAgain(
        giver,
        shares.map(({ lotId, count }) => ({
          quantity: count,
          until: held.find((pieces) => pieces.lotId === lotId)?.until ?? null,
        })),
      ),
      served,
    ],
    byId: act.actor.id,
    usualUntil: await findHeldUntil(act.sql, taker.jobId),
  });
  await insertReassignment(act.sql, {
    from: giver.id,
    to: taker.id,
    quantity: asked.quantity,
    reason,
    byId: act.actor.id,
  });
  await tellBoth(act, { from, to, quantity: asked.quantity, reason });
  return { jobId: to.jobId };
}

/** Of what is held, what the line wants, or what serves in its place, by its rule; no more than so many. */
function sharesFor(
  line: LineToServe,
  of: { readonly held: readonly HeldPieces[]; readonly lots: readonly LockedLot[]; readonly count: number },
): readonly LotShare[] {
  const offered = of.lots.map(({ thickness, ...lot }) => ({
    ...lot,
    thickness: thickness === null ? null : nanometres(thickness),
    onHand: of.held.find(({ lotId }) => lotId === lot.id)?.quantity ?? 0,
    reserved: 0,
  }));
  const servedBy = line.servedBy.includes(line.partId) ? line.servedBy : [line.partId, ...line.servedBy];
  const { reservations } = planFor([{ ...line, servedBy }], offered, false);
  let left = of.count;
  return reservations.flatMap(({ lotId, count }) => {
    const share = { lotId, count: Math.min(left, count) };
    left -= share.count;
    return share.count === 0 ? [] : [share];
  });
}

function refuseUnless(
  there: number,
  of: { readonly giver: LineToServe; readonly taker: LineToServe; readonly asked: number },
): void {
  if (there >= of.asked) return;
  const { name, number } = of.giver;
  const rule = ruleWords(of.taker.lotRule);
  const wanted = rule === '' ? '' : ` It wants them ${rule}.`;
  throw new ProblemError(
    'stock-short',
    `Of ${name} (${number}) that job has ${there} reserved which the other could take, not ${of.asked}.${wanted}`,
    { reserved: there, asked: of.asked },
  );
}

async function tellBoth(
  act: Act,
  of: {
    readonly from: LineToReassign;
    readonly to: LineToReassign;
    readonly quantity: number;
    readonly reason: string;
  },
): Promise<void> {
  const { from, to, quantity, reason } = of;
  const what = { part: from.number, name: from.name, quantity, reason };
  const told = [
    { kind: 'reservation.given', line: from, data: { ...what, toJob: to.jobNumber } },
    { kind: 'reservation.taken', line: to, data: { ...what, fromJob: from.jobNumber } },
  ];
  for (const { kind, line, data } of told) await act.event(kind, { engineId: line.engineId, jobId: line.jobId, data });
}

const refusedAt = (pointer: string, detail: string): ProblemError =>
  new ProblemError('refused', detail, { errors: [{ pointer, detail }] });

import type { Verdict } from '#domain/metrology/finding.ts';
import { isWell, proves } from '#domain/obligations/disposition.ts';
import { actOnObligation, openObligation } from '#features/obligations/service.ts';
import { callOffDischarged } from '#features/stores/demands/service.ts';
import type { Act } from '#platform/act.ts';
import { type Chain, findObligations, findProvenBy, type ObligationRow } from './queries.ts';

/** What became of obligations in one write. */
export interface Settled {
  readonly opened: readonly string[];
  readonly discharged: readonly string[];
  readonly reopened: readonly string[];
}

export const nothingSettled: Settled = { opened: [], discharged: [], reopened: [] };

export const settledTogether = (all: readonly Settled[]): Settled => ({
  opened: all.flatMap(({ opened }) => opened),
  discharged: all.flatMap(({ discharged }) => discharged),
  reopened: all.flatMap(({ reopened }) => reopened),
});

/** A finding that was just kept, and what its obligation would say. */
export interface Judged extends Chain {
  readonly id: string;
  readonly engineId: string;
  readonly verdict: Verdict;
  readonly inside: boolean;
  readonly words: string;
}

const isOfChain = (row: ObligationRow, chain: Chain): boolean =>
  row.dimension === chain.dimension && row.round === chain.round && row.fittedPartId === chain.fittedPartId;

export const lastDecision = (row: ObligationRow) =>
  row.decidedAt === null ? undefined : row.acts.findLast(({ act }) => act === 'decided');

/** The proof was withdrawn or no longer holds: what rested on it is open again, and undecided. */
export async function reopenProven(
  act: Act,
  chain: Chain,
  because: { readonly reason: string; readonly findingId?: string },
): Promise<Settled> {
  const reopened = await findProvenBy(act.sql, chain);
  for (const obligationId of reopened) {
    await actOnObligation(act, { obligationId, act: 'reopened', ...because });
  }
  return { ...nothingSettled, reopened };
}

async function dischargeProven(act: Act, finding: Judged, open: readonly ObligationRow[]): Promise<Settled> {
  const proven = open.filter((row) => {
    if (row.dimension !== finding.dimension || row.round === null) return false;
    if (isOfChain(row, finding)) return true;
    const decided = lastDecision(row)?.kind ?? undefined;
    return proves(finding.round, { round: row.round, decided, samePart: row.fittedPartId === finding.fittedPartId });
  });
  for (const { id } of proven) {
    await actOnObligation(act, { obligationId: id, act: 'discharged', findingId: finding.id });
  }
  await callOffUnneeded(act, finding, proven);
  return { ...nothingSettled, discharged: proven.map(({ id }) => id) };
}

/**
 * What was past its limit as the engine came in, and measured again is not, never needed what was decided on. In a later
 * round the good reading is what the work has brought, and its parts are wanted.
 */
async function callOffUnneeded(act: Act, finding: Judged, proven: readonly ObligationRow[]): Promise<void> {
  if (finding.round !== 'as received') return;
  const obligationIds = proven.filter((row) => isOfChain(row, finding)).map(({ id }) => id);
  const { jobId, engineId } = finding;
  const words = 'measured again: it is within its limits';
  if (obligationIds.length > 0) await callOffDischarged(act, { jobId, engineId, obligationIds, words });
}

/**
 * A bad finding opens its obligation, unless one that had been proven is open again because of it. An older obligation of
 * the same chain goes over into the new one, with what was decided about it; to measure again has been done by now.
 */
async function openFor(act: Act, finding: Judged, open: readonly ObligationRow[]): Promise<Settled> {
  const again = await reopenProven(act, finding, {
    reason: 'measured again: the proof no longer holds',
    findingId: finding.id,
  });
  const older = open.filter((row) => isOfChain(row, finding));
  const reopenedHere = (await findObligations(act.sql, finding.jobId)).some(
    (row) => again.reopened.includes(row.id) && isOfChain(row, finding),
  );
  if (reopenedHere) return again;
  const id = await openObligation(act, {
    engineId: finding.engineId,
    jobId: finding.jobId,
    words: finding.words,
    inside: finding.inside,
    cause: { findingId: finding.id },
  });
  for (const row of older) {
    await actOnObligation(act, {
      obligationId: row.id,
      act: 'discharged',
      findingId: finding.id,
      reason: 'measured again: the newer finding has an obligation of its own',
    });
  }
  const carried = older
    .map(lastDecision)
    .find((decision) => decision !== undefined && decision.kind !== 'measure again');
  if (carried?.dispositionId != null) {
    await actOnObligation(act, {
      obligationId: id,
      act: 'decided',
      dispositionId: carried.dispositionId,
      reason: 'decided before it was measured again',
    });
  }
  return { opened: [id], discharged: older.map((row) => row.id), reopened: again.reopened };
}

/** Opens, discharges and reopens what a finding that was just kept asks for. The caller holds the engine. */
export async function settle(act: Act, finding: Judged): Promise<Settled> {
  const open = (await findObligations(act.sql, finding.jobId)).filter(({ dischargedAt }) => dischargedAt === null);
  return isWell(finding.verdict) ? dischargeProven(act, finding, open) : openFor(act, finding, open);
}

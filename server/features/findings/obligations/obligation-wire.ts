import type { Obligation } from '#contracts/obligations.ts';
import type { ObligationRow } from './queries.ts';
import { lastDecision } from './settling.ts';

function causeOf(row: ObligationRow): Pick<Obligation, 'cause' | 'causeId'> {
  if (row.findingId !== null) return { cause: 'finding', causeId: row.findingId };
  if (row.handoverLineId !== null) return { cause: 'handover', causeId: row.handoverLineId };
  if (row.pieceId !== null) return { cause: 'count', causeId: row.pieceId };
  return { cause: 'lead', causeId: row.raisedById ?? row.id };
}

function findingOf(row: ObligationRow): Obligation['finding'] {
  const { dimension, name, round, verdict, standingId, standingVerdict } = row;
  if (dimension === null || name === null || round === null || verdict === null) return null;
  const standing =
    standingId === null || standingVerdict === null ? null : { id: standingId, verdict: standingVerdict };
  return { dimension, name, round, verdict, standing };
}

export function obligationOnWire(row: ObligationRow): Obligation {
  const decision = lastDecision(row);
  return {
    id: row.id,
    jobId: row.jobId,
    words: row.words,
    inside: row.inside,
    ...causeOf(row),
    finding: findingOf(row),
    state: row.dischargedAt !== null ? 'discharged' : row.decidedAt !== null ? 'decided' : 'to decide',
    openedAt: row.openedAt,
    decidedAt: row.decidedAt,
    dischargedAt: row.dischargedAt,
    decided:
      decision === undefined || decision.dispositionId === null || decision.kind === null
        ? null
        : { dispositionId: decision.dispositionId, kind: decision.kind, sizeClass: decision.sizeClass },
    acts: row.acts.map((act) => ({
      act: act.act,
      kind: act.kind,
      sizeClass: act.sizeClass,
      reason: act.reason || (act.decisionReason ?? ''),
      findingId: act.findingId,
      by: { id: act.byId, name: act.byName },
      at: act.at,
    })),
  };
}

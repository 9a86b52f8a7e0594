import type { Bench, Obligation, Round } from './bench.ts';
import { isoOf } from './clock.ts';
import { type Act, tell } from './visit.ts';
import { known } from './world.ts';

export interface Cause {
  readonly finding_id?: string;
  readonly handover_line_id?: string;
  readonly piece_id?: string;
  readonly piece_movement_id?: string;
}

export function oblige(
  bench: Bench,
  act: Act,
  of: {
    readonly words: string;
    readonly inside: boolean;
    readonly dimension: string;
    readonly round: Round;
    readonly cause: Cause;
  },
): Obligation {
  const { visit } = bench;
  const { world } = visit;
  const id = world.id('obligation', act.at);
  const row = world.rows.add('obligation', {
    id,
    engine_id: visit.engine.id,
    job_id: visit.jobId,
    words: of.words,
    inside: of.inside,
    finding_id: of.cause.finding_id ?? null,
    handover_line_id: of.cause.handover_line_id ?? null,
    piece_id: of.cause.piece_id ?? null,
    raised_by_id: null,
    opened_at: isoOf(act.at),
    piece_movement_id: of.cause.piece_movement_id ?? null,
  });
  const obligation: Obligation = { id, row, dimension: of.dimension, round: of.round, discharged: false };
  bench.obligations.push(obligation);
  return obligation;
}

export function actOn(
  bench: Bench,
  obligation: Obligation,
  by: Act,
  of: {
    readonly act: 'decided' | 'discharged';
    readonly dispositionId?: string;
    readonly findingId?: string;
    readonly reason?: string;
  },
): void {
  const { world } = bench.visit;
  if (of.act === 'discharged') obligation.discharged = true;
  world.rows.add('obligation_act', {
    id: world.id('obligation_act', by.at),
    obligation_id: obligation.id,
    act: of.act,
    disposition_id: of.dispositionId ?? null,
    finding_id: of.findingId ?? null,
    reason: of.reason ?? '',
    acted_by_id: known(world.people, by.by),
    acted_at: isoOf(by.at),
  });
}

export interface Decision extends Act {
  readonly kind: 'measure again' | 'reuse' | 'bore' | 'replate' | 'grind' | 'shim' | 'replace' | 'send out' | 'search';
  readonly sizeClass?: string;
  readonly reason?: string;
  readonly dimensions: readonly string[];
}

/** One decision for every open obligation on the named dimensions; using a part again discharges them at once. */
export function decide(bench: Bench, of: Decision): void {
  const { visit, obligations } = bench;
  const { world } = visit;
  const about = obligations.filter((each) => !each.discharged && of.dimensions.includes(each.dimension));
  if (about.length === 0) return;
  const id = world.id('disposition', of.at);
  world.rows.add('disposition', {
    id,
    job_id: visit.jobId,
    kind: of.kind,
    size_class: of.sizeClass ?? null,
    reason: of.reason ?? '',
    decided_by_id: known(world.people, of.by),
    decided_at: isoOf(of.at),
  });
  for (const obligation of about) {
    actOn(bench, obligation, of, { act: 'decided', dispositionId: id });
    if (of.kind === 'reuse') actOn(bench, obligation, of, { act: 'discharged', reason: of.reason ?? 'used again' });
  }
  tell(visit, 'obligation.decided', of, { kind: of.kind, dimensions: of.dimensions, reason: of.reason ?? '' });
}

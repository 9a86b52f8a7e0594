import { type MicroDegrees, type MicronewtonMetres, microDegrees, micronewtonMetres } from '#domain/units/quantity.ts';
import type { FastenerSet, FastenerStage, PullTolerance } from './fastener-set.ts';
import { tighteningOrder } from './order.ts';
import { suspectedSwap, type UnitSwap } from './typo-guard.ts';

/** What a tool showed or was set to at one position in one stage (`stage` is the stage's ordinal). */
export type Pull =
  | {
      readonly fastener: number;
      readonly stage: number;
      readonly kind: 'torque';
      readonly torque: MicronewtonMetres;
    }
  | { readonly fastener: number; readonly stage: number; readonly kind: 'angle'; readonly angle: MicroDegrees };

export interface StageProgress {
  readonly stage: number;
  /** Numbers of positions, in tightening order. */
  readonly done: readonly number[];
  readonly missing: readonly number[];
}

export interface SetProgress {
  readonly stages: readonly StageProgress[];
  readonly complete: boolean;
}

/** The pull that comes next: a position, and the stage with its figure. */
export interface NextPull {
  readonly fastener: number;
  readonly stage: FastenerStage;
}

export type PullCheck =
  | { readonly kind: 'ok' }
  | { readonly kind: 'unknown-position'; readonly fastener: number }
  | { readonly kind: 'unknown-stage'; readonly stage: number }
  | { readonly kind: 'wrong-quantity'; readonly asked: FastenerStage['kind'] }
  | { readonly kind: 'repeated'; readonly fastener: number; readonly stage: number }
  | { readonly kind: 'stage-before-not-complete'; readonly stage: number; readonly missing: readonly number[] }
  | { readonly kind: 'missed'; readonly skipped: readonly number[] }
  | {
      readonly kind: 'out-of-tolerance';
      readonly low: number;
      readonly high: number;
      readonly given: number;
      readonly swap: UnitSwap | null;
    };

/**
 * How far a set is, stage by stage. `pulls` are the standing ones (struck ones left out), in any order; a pull out of
 * tolerance doesn't count. A set without stages or positions is complete.
 */
export function setProgress(set: FastenerSet, pulls: readonly Pull[]): SetProgress {
  const order = tighteningOrder(set);
  const stages = inOrder(set.stages).map((stage) => {
    const pulled = new Set(pulls.filter((pull) => counts(stage, pull, set.tolerance)).map(({ fastener }) => fastener));
    return {
      stage: stage.ordinal,
      done: order.filter((number) => pulled.has(number)),
      missing: order.filter((number) => !pulled.has(number)),
    };
  });
  return { stages, complete: stages.every(({ missing }) => missing.length === 0) };
}

/** The next position to pull and its stage, undefined when the set is complete. All of a stage before any of the next. */
export function nextPull(set: FastenerSet, pulls: readonly Pull[]): NextPull | undefined {
  const open = setProgress(set, pulls).stages.find(({ missing }) => missing.length > 0);
  const fastener = open?.missing[0];
  const stage = set.stages.find(({ ordinal }) => ordinal === open?.stage);
  return fastener === undefined || stage === undefined ? undefined : { fastener, stage };
}

/**
 * Whether a pull is the one that comes next, and good. What is wrong is looked for in this order: unknown position or
 * stage; an angle where a torque is asked or the reverse; a position pulled before in this stage; a stage begun before
 * the one before is complete; positions missed out; out of tolerance (bounds in µN·m or µ°).
 */
export function checkPull(set: FastenerSet, pulls: readonly Pull[], candidate: Pull): PullCheck {
  const { fastener } = candidate;
  if (!set.positions.some(({ number }) => number === fastener)) return { kind: 'unknown-position', fastener };
  const stage = set.stages.find(({ ordinal }) => ordinal === candidate.stage);
  if (stage === undefined) return { kind: 'unknown-stage', stage: candidate.stage };
  if (stage.kind !== candidate.kind) return { kind: 'wrong-quantity', asked: stage.kind };
  return outOfOrder(set, pulls, candidate) ?? outOfTolerance(stage, candidate, set.tolerance) ?? { kind: 'ok' };
}

function outOfOrder(set: FastenerSet, pulls: readonly Pull[], candidate: Pull): PullCheck | undefined {
  const { stages } = setProgress(set, pulls);
  const own = stages.find(({ stage }) => stage === candidate.stage);
  if (own === undefined || own.done.includes(candidate.fastener)) {
    return { kind: 'repeated', fastener: candidate.fastener, stage: candidate.stage };
  }
  const before = stages.find(({ stage, missing }) => stage < candidate.stage && missing.length > 0);
  if (before !== undefined) {
    return { kind: 'stage-before-not-complete', stage: before.stage, missing: before.missing };
  }
  const skipped = own.missing.slice(0, own.missing.indexOf(candidate.fastener));
  return skipped.length === 0 ? undefined : { kind: 'missed', skipped };
}

/** Bounds of a good pull in a stage, both included: whole µN·m for a torque, µ° for an angle. */
export function pullBounds(
  stage: FastenerStage,
  tolerance: PullTolerance,
): { readonly low: number; readonly high: number } {
  switch (stage.kind) {
    case 'torque': {
      const spread = Math.round((stage.torque * tolerance.torque) / 1e6);
      return { low: micronewtonMetres(stage.torque - spread), high: micronewtonMetres(stage.torque + spread) };
    }
    case 'angle':
      return {
        low: microDegrees(stage.angle - tolerance.angle),
        high: microDegrees(stage.angle + tolerance.angle),
      };
  }
}

function outOfTolerance(stage: FastenerStage, pull: Pull, tolerance: PullTolerance): PullCheck | undefined {
  const { low, high } = pullBounds(stage, tolerance);
  const given = pull.kind === 'torque' ? pull.torque : pull.angle;
  if (given >= low && given <= high) return undefined;
  const swap = stage.kind === 'torque' && pull.kind === 'torque' ? suspectedSwap(pull.torque, stage.torque) : null;
  return { kind: 'out-of-tolerance', low, high, given, swap };
}

function counts(stage: FastenerStage, pull: Pull, tolerance: PullTolerance): boolean {
  return (
    pull.stage === stage.ordinal && pull.kind === stage.kind && outOfTolerance(stage, pull, tolerance) === undefined
  );
}

function inOrder(stages: readonly FastenerStage[]): readonly FastenerStage[] {
  return stages.toSorted((a, b) => a.ordinal - b.ordinal);
}

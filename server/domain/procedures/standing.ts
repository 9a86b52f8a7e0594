import type { Condition } from './document.ts';

export type MarkKind = 'done' | 'skipped' | 'second person';

/** A step of a version, as far as branches and progress go. In the order of the procedure. */
export interface StepFacts {
  readonly id: string;
  readonly secondPerson: boolean;
  /** Code of the question it asks; null: none. */
  readonly question: string | null;
  readonly onlyIf: readonly Condition[];
}

/** A run as its facts tell it: only the marks of each step's newest round, only the newest answers. */
export interface RunState {
  readonly steps: readonly StepFacts[];
  readonly marks: readonly { readonly stepId: string; readonly mark: MarkKind }[];
  /** By the code of the question: the code of the choice. */
  readonly answers: ReadonlyMap<string, string>;
  /** Values by fact of the job; a fact may have several (two kinds of adjuster), or none. */
  readonly facts: ReadonlyMap<string, readonly string[]>;
}

export type Standing =
  | 'to do'
  | 'waits for a second person'
  | 'done'
  | 'skipped'
  /** A fact or an answer speaks against it. */
  | 'left out'
  /** What it stands on was not answered yet. */
  | 'not known yet';

/** Why a step is left out or not known yet: the first of its conditions that doesn't hold. */
export interface Because {
  readonly condition: Condition;
  /** What is known instead; null: nothing, or the question is itself left out. */
  readonly known: string | null;
}

export interface StepStanding {
  readonly stepId: string;
  readonly standing: Standing;
  readonly because: Because | null;
}

interface Held {
  readonly held: 'holds' | 'fails' | 'unknown';
  readonly known: string | null;
}

const against = (holds: boolean, known: string | null): Held => ({ held: holds ? 'holds' : 'fails', known });

function heldOf(condition: Condition, state: RunState, askedBefore: ReadonlySet<string>): Held {
  if ('fact' in condition) {
    const known = state.facts.get(condition.fact) ?? [];
    return against(
      known.some((value) => condition.oneOf.includes(value)),
      known[0] ?? null,
    );
  }
  if (!askedBefore.has(condition.question)) return against(false, null);
  const answer = state.answers.get(condition.question);
  if (answer === undefined) return { held: 'unknown', known: null };
  return against(condition.oneOf.includes(answer), answer);
}

/**
 * How every step stands, in order. A step is left out when one of its conditions fails, or when the question it stands on
 * is asked by no step before it, or only by one that is left out; it is not known yet when none fails and a question is
 * open. What was marked before an answer spoke against a step stays a fact, and the step is told as left out.
 */
export function standingsOf(state: RunState): readonly StepStanding[] {
  const askedBefore = new Set<string>();
  return state.steps.map((step) => {
    const told = standingOf(step, state, askedBefore);
    if (step.question !== null && told.standing !== 'left out') askedBefore.add(step.question);
    return told;
  });
}

function standingOf(step: StepFacts, state: RunState, askedBefore: ReadonlySet<string>): StepStanding {
  const told = step.onlyIf.map((condition) => ({ condition, ...heldOf(condition, state, askedBefore) }));
  const failing = told.find(({ held }) => held === 'fails');
  const open = told.find(({ held }) => held === 'unknown');
  const because = failing ?? open;
  if (because === undefined) return { stepId: step.id, standing: markedAs(step, state), because: null };
  return {
    stepId: step.id,
    standing: failing === undefined ? 'not known yet' : 'left out',
    because: { condition: because.condition, known: because.known },
  };
}

function markedAs(step: StepFacts, { marks }: RunState): Standing {
  const has = (mark: MarkKind) => marks.some((row) => row.stepId === step.id && row.mark === mark);
  if (has('skipped')) return 'skipped';
  if (!has('done')) return 'to do';
  return step.secondPerson && !has('second person') ? 'waits for a second person' : 'done';
}

export interface Progress {
  /** Done or skipped, of those that stand. */
  readonly settled: number;
  /** Steps that stand, or may. */
  readonly all: number;
  /** The first to be marked; null: none is left, or a stop point holds the work. */
  readonly nextId: string | null;
  /** The first stop point that waits for another person. */
  readonly heldAtId: string | null;
}

/** How far a run has come. A stop point that waits holds what comes after it. */
export function progressOf(standings: readonly StepStanding[]): Progress {
  const standing = standings.filter((each) => each.standing !== 'left out');
  const held = standing.findIndex((each) => each.standing === 'waits for a second person');
  const reachable = held === -1 ? standing : standing.slice(0, held);
  return {
    settled: standing.filter((each) => each.standing === 'done' || each.standing === 'skipped').length,
    all: standing.length,
    nextId: reachable.find((each) => each.standing === 'to do')?.stepId ?? null,
    heldAtId: standing[held]?.stepId ?? null,
  };
}

import type { ProcedureRun, RunPiece, RunStep } from '#contracts/procedure-runs.ts';
import { type Progress, progressOf, type StepStanding, standingsOf } from '#domain/procedures/standing.ts';
import { rackOf, type ValvePlace } from '#domain/tally/rack.ts';
import { blindTrays } from '#features/custody/service.ts';
import type { Sql } from '#platform/database/client.ts';
import {
  type AnswerRow,
  findAnswers,
  findFactsOfJob,
  findInterruptions,
  findMarks,
  findPiecesOfSteps,
  findRedos,
  findRuns,
  findSteps,
  findValvesOfJob,
  type InterruptionRow,
  type MarkRow,
  type PieceOfStep,
  type RedoRow,
  type RunRow,
  type StepRow,
} from './run-queries.ts';
import { becauseWords } from './run-words.ts';

/** One run with all its rows, before it is told to anybody. */
export interface RunFacts {
  readonly run: RunRow;
  readonly steps: readonly StepRow[];
  readonly marks: readonly MarkRow[];
  readonly redos: readonly RedoRow[];
  readonly answers: readonly AnswerRow[];
  readonly interruptions: readonly InterruptionRow[];
  readonly pieces: readonly PieceOfStep[];
  readonly valves: readonly ValvePlace[];
  readonly facts: ReadonlyMap<string, readonly string[]>;
}

export async function findRunFacts(sql: Sql, of: { jobId: string } | { runId: string }): Promise<readonly RunFacts[]> {
  const runs = await findRuns(sql, of);
  const [first] = runs;
  if (first === undefined) return [];
  const ids = runs.map(({ id }) => id);
  const [steps, marks, redos, answers, interruptions, pieces, valves, known] = await Promise.all([
    findSteps(sql, ids),
    findMarks(sql, ids),
    findRedos(sql, ids),
    findAnswers(sql, ids),
    findInterruptions(sql, ids),
    findPiecesOfSteps(sql, ids),
    findValvesOfJob(sql, first.jobId),
    findFactsOfJob(sql, first.jobId),
  ]);
  const facts = new Map(
    known.map(({ fact }) => [fact, known.filter((row) => row.fact === fact).map(({ value }) => value)]),
  );
  return runs.map((run) => {
    const ofRun = <Row extends { readonly runId: string }>(rows: readonly Row[]) =>
      rows.filter(({ runId }) => runId === run.id);
    return {
      run,
      steps: ofRun(steps),
      marks: ofRun(marks),
      redos: ofRun(redos),
      answers: ofRun(answers),
      interruptions: ofRun(interruptions),
      pieces: ofRun(pieces),
      valves,
      facts,
    };
  });
}

/** How often a step was begun. */
export const roundOf = ({ redos }: RunFacts, stepId: string): number =>
  Math.max(1, ...redos.filter((redo) => redo.stepId === stepId).map(({ round }) => round));

/** The marks of a step's newest round: those that count. */
export const marksOf = (facts: RunFacts, stepId: string): readonly MarkRow[] => {
  const newest = roundOf(facts, stepId);
  return facts.marks.filter((mark) => mark.stepId === stepId && mark.round === newest);
};

export interface RunStanding {
  readonly byStep: ReadonlyMap<string, StepStanding>;
  readonly progress: Progress;
}

export function standingOfRun(facts: RunFacts): RunStanding {
  const questionOf = new Map(facts.steps.map(({ id, asks }) => [id, asks?.code]));
  const standings = standingsOf({
    steps: facts.steps.map(({ asks, ...step }) => ({ ...step, question: asks?.code ?? null })),
    marks: facts.steps.flatMap(({ id }) => marksOf(facts, id)),
    answers: new Map(
      facts.answers.filter(({ stands }) => stands).map(({ stepId, choice }) => [questionOf.get(stepId) ?? '', choice]),
    ),
    facts: facts.facts,
  });
  return { byStep: new Map(standings.map((each) => [each.stepId, each])), progress: progressOf(standings) };
}

/** The interruption nobody has resumed yet. */
export const openInterruption = ({ interruptions }: RunFacts): InterruptionRow | undefined =>
  interruptions.find(({ resumedAt }) => resumedAt === null);

/** How many of a piece are neither off nor declared as possibly inside. */
const shortOf = ({ expected, off, declared }: PieceOfStep): number => Math.max(0, expected - off - declared);

function pieceOf(row: PieceOfStep, { run: { kind }, valves }: RunFacts, blind: ReadonlySet<string>): RunPiece {
  const hidden = row.trayIds.some((trayId) => blind.has(trayId));
  return {
    id: row.id,
    name: row.name,
    expected: hidden ? row.byProcedure : row.expected,
    fromWhere: row.fromWhere,
    why: row.why,
    layer: row.layer,
    oneTime: row.oneTime,
    matchedSet: row.matchedSet,
    places: (rackOf({ ...row, expected: row.byProcedure }, valves) ?? []).map((place) => ({ ...place })),
    pieceId: row.pieceId,
    counted: row.counted,
    off: hidden ? null : row.off,
    short: hidden ? null : kind === 'strip' ? shortOf(row) : 0,
  };
}

const toldBy = ({ byId, by, at }: { byId: string; by: string; at: string }) => ({ by: { id: byId, name: by }, at });

function stepOf(
  facts: RunFacts,
  { runId: _, ...step }: StepRow,
  of: { standing: RunStanding; blind: ReadonlySet<string> },
): RunStep {
  const told = of.standing.byStep.get(step.id);
  const here = <Row extends { readonly stepId: string }>(rows: readonly Row[]) =>
    rows.filter(({ stepId }) => stepId === step.id);
  return {
    ...step,
    cautions: [...step.cautions],
    putIn: [...step.putIn],
    asks: step.asks === null ? null : { ...step.asks, choices: [...step.asks.choices] },
    onlyIf: step.onlyIf.map((condition) => ({ ...condition, oneOf: [...condition.oneOf] })),
    readings: [...step.readings],
    standing: told?.standing ?? 'to do',
    because: told?.because == null ? null : becauseWords(told.because, facts.steps),
    next: step.id === of.standing.progress.nextId,
    round: roundOf(facts, step.id),
    marks: here(facts.marks).map((row) => ({
      ...{ mark: row.mark, round: row.round, reason: row.reason, noPhoto: row.noPhoto },
      ...toldBy(row),
    })),
    redos: here(facts.redos).map((row) => ({ round: row.round, reason: row.reason, ...toldBy(row) })),
    answers: here(facts.answers).map((row) => ({ choice: row.choice, reason: row.reason, ...toldBy(row) })),
    pieces: here(facts.pieces).map((piece) => pieceOf(piece, facts, of.blind)),
  };
}

function runOf(facts: RunFacts, blind: ReadonlySet<string>): ProcedureRun {
  const { run } = facts;
  const standing = standingOfRun(facts);
  const steps = facts.steps.map((step) => stepOf(facts, step, { standing, blind }));
  return {
    id: run.id,
    versionId: run.versionId,
    procedure: { id: run.procedureId, code: run.code, name: run.name, kind: run.kind },
    version: run.version,
    startedAt: run.startedAt,
    startedBy: { id: run.startedById, name: run.startedBy },
    steps,
    settled: standing.progress.settled,
    all: standing.progress.all,
    heldAtStepId: standing.progress.heldAtId,
    interruptions: facts.interruptions.map((row) => ({
      id: row.id,
      stepId: row.stepId,
      why: row.why,
      loose: row.loose,
      ...toldBy(row),
      resumed:
        row.resumedById === null || row.resumedBy === null || row.resumedAt === null
          ? null
          : { by: { id: row.resumedById, name: row.resumedBy }, at: row.resumedAt },
    })),
    shortPieces: steps
      .filter((step) => step.standing !== 'skipped' && step.standing !== 'left out')
      .flatMap(({ id: stepId, pieces }) =>
        pieces.flatMap(({ name, short, counted }) =>
          counted && short !== null && short > 0 ? [{ stepId, name, short }] : [],
        ),
      ),
  };
}

export async function listRuns(sql: Sql, of: { jobId: string; viewerId: string }): Promise<ProcedureRun[]> {
  const blind = await blindTrays(sql, of);
  return (await findRunFacts(sql, { jobId: of.jobId })).map((facts) => runOf(facts, blind));
}

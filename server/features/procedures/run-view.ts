import type { ProcedureRun, RunPiece, RunStep } from '#contracts/procedures.ts';
import { blindTrays } from '#features/custody/service.ts';
import type { Sql } from '#platform/database/client.ts';
import {
  findMarks,
  findPiecesOfSteps,
  findRuns,
  findSteps,
  type MarkRow,
  type PieceOfStep,
  type RunRow,
  type StepRow,
} from './queries.ts';

/** One run with all its rows, before it is told to anybody. */
export interface RunFacts {
  readonly run: RunRow;
  readonly steps: readonly StepRow[];
  readonly marks: readonly MarkRow[];
  readonly pieces: readonly PieceOfStep[];
}

export async function findRunFacts(sql: Sql, of: { jobId: string } | { runId: string }): Promise<readonly RunFacts[]> {
  const runs = await findRuns(sql, of);
  const ids = runs.map(({ id }) => id);
  const [steps, marks, pieces] = [
    await findSteps(sql, ids),
    await findMarks(sql, ids),
    await findPiecesOfSteps(sql, ids),
  ];
  return runs.map((run) => ({
    run,
    steps: steps.filter(({ runId }) => runId === run.id),
    marks: marks.filter(({ runId }) => runId === run.id),
    pieces: pieces.filter(({ runId }) => runId === run.id),
  }));
}

export function standingOf(step: StepRow, marks: readonly MarkRow[]): RunStep['standing'] {
  const has = (mark: MarkRow['mark']) => marks.some((row) => row.stepId === step.id && row.mark === mark);
  if (has('skipped')) return 'skipped';
  if (!has('done')) return 'to do';
  return step.secondPerson && !has('second person') ? 'waits for a second person' : 'done';
}

/** How many of a piece are neither off nor declared as possibly inside. */
export const shortOf = ({ expected, off, declared }: PieceOfStep): number => Math.max(0, expected - off - declared);

function pieceOf(row: PieceOfStep, { kind, blind }: { kind: RunRow['kind']; blind: ReadonlySet<string> }): RunPiece {
  const hidden = row.trayId !== null && blind.has(row.trayId);
  return {
    id: row.id,
    name: row.name,
    expected: hidden ? row.byProcedure : row.expected,
    fromWhere: row.fromWhere,
    why: row.why,
    layer: row.layer,
    oneTime: row.oneTime,
    matchedSet: row.matchedSet,
    pieceId: row.pieceId,
    counted: row.counted,
    off: hidden ? null : row.off,
    short: hidden ? null : kind === 'strip' ? shortOf(row) : 0,
  };
}

function runOf({ run, steps, marks, pieces }: RunFacts, blind: ReadonlySet<string>): ProcedureRun {
  const nextId = steps.find((step) => standingOf(step, marks) === 'to do')?.id;
  const told = steps.map(({ runId: _, ...step }) => ({
    ...step,
    standing: standingOf({ ...step, runId: run.id }, marks),
    next: step.id === nextId,
    marks: marks
      .filter(({ stepId }) => stepId === step.id)
      .map(({ mark, reason, byId, by, at }) => ({ mark, reason, by: { id: byId, name: by }, at })),
    pieces: pieces.filter(({ stepId }) => stepId === step.id).map((piece) => pieceOf(piece, { kind: run.kind, blind })),
  }));
  return {
    id: run.id,
    versionId: run.versionId,
    procedure: { id: run.procedureId, code: run.code, name: run.name, kind: run.kind },
    version: run.version,
    startedAt: run.startedAt,
    startedBy: { id: run.startedById, name: run.startedBy },
    steps: told,
    shortPieces: told
      .filter(({ standing }) => standing !== 'skipped')
      .flatMap(({ id: stepId, pieces: asked }) =>
        asked.flatMap(({ name, short, counted }) =>
          counted && short !== null && short > 0 ? [{ stepId, name, short }] : [],
        ),
      ),
  };
}

export async function listRuns(sql: Sql, of: { jobId: string; viewerId: string }): Promise<ProcedureRun[]> {
  const blind = await blindTrays(sql, of);
  return (await findRunFacts(sql, { jobId: of.jobId })).map((facts) => runOf(facts, blind));
}

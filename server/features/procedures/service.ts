import type { MarkStep, ProcedurePage, ProcedureVersion, RunStep, StopPoint } from '#contracts/procedures.ts';
import { Layer, procedureKinds } from '#contracts/procedures.ts';
import { setLoosened } from '#features/assembly/service.ts';
import { blindTrays } from '#features/custody/service.ts';
import { openJob } from '#features/intake/service.ts';
import type { Act } from '#platform/act.ts';
import type { Models, Sql } from '#platform/database/client.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  findJobOfRun,
  findProcedures,
  findRunOf,
  findStopPoints,
  findVersion,
  findVersionToRun,
  insertMark,
  insertRun,
  type Kind,
  type Mark,
  type StepRow,
} from './queries.ts';
import { findRunFacts, type RunFacts, shortOf, standingOf } from './run-view.ts';

const kindOf = (text: string): Kind => procedureKinds.find((kind) => kind === text) ?? 'prove';
const layerOf = (text: string | null) => (text === null ? null : Layer.parse(text));

export async function listProcedures(
  sql: Sql,
  query: {
    familyId?: string | undefined;
    kind?: Kind | undefined;
    after?: string | undefined;
    limit?: number | undefined;
  },
): Promise<ProcedurePage> {
  const { familyId, kind, after, limit = 100 } = query;
  const rows = await findProcedures(sql, { familyId, kind, after, limit: limit + 1 });
  const items = rows.slice(0, limit);
  return { items, next: rows.length > limit ? (items.at(-1)?.code ?? null) : null };
}

export async function getVersion(db: Models, id: string): Promise<ProcedureVersion> {
  const version = found(await findVersion(db, id), 'such version of a procedure');
  const { procedure } = version;
  return {
    id: version.id,
    procedure: { id: procedure.id, code: procedure.code, name: procedure.name, kind: kindOf(procedure.kind) },
    number: version.number,
    publishedAt: version.publishedAt?.toISOString() ?? null,
    note: version.note,
    steps: version.procedureSteps.map((step) => ({
      id: step.id,
      ordinal: step.ordinal,
      title: step.title,
      words: step.words,
      caution: step.caution,
      secondPerson: step.secondPerson,
      fastenerSet: step.fastenerSet,
      dimensionCode: step.dimensionCode,
      pieces: step.stepPieces.map((piece) => ({
        id: piece.id,
        name: piece.name,
        expected: piece.expected,
        fromWhere: piece.fromWhere,
        why: piece.why,
        layer: layerOf(piece.layer),
        oneTime: piece.oneTime,
        matchedSet: piece.matchedSet,
      })),
    })),
  };
}

/** Steps in the shop that wait for a second person: anybody's but who did them. */
export async function listStopPoints(sql: Sql): Promise<StopPoint[]> {
  return (await findStopPoints(sql)).map(({ jobId, number, engineId, serial, doneById, doneBy, ...step }) => ({
    ...step,
    job: { id: jobId, number },
    engine: { id: engineId, serial },
    doneBy: { id: doneById, name: doneBy },
  }));
}

/** Starts a procedure on a job: a published version, of the engine's own family, once a job. */
export async function startRun(
  act: Act,
  asked: { readonly jobId: string; readonly versionId: string },
): Promise<{ id: string }> {
  const job = await openJob(act, asked.jobId);
  const version = found(
    await findVersionToRun(act.sql, { versionId: asked.versionId, engineId: job.engineId }),
    'such version of a procedure',
  );
  if (!version.published) {
    throw new ProblemError('refused', `Version ${version.number} of "${version.name}" is not published yet.`);
  }
  if (!version.fits) throw new ProblemError('refused', `"${version.name}" is for another engine family.`);
  const running = await findRunOf(act.sql, asked);
  if (running !== undefined) {
    throw new ProblemError('already-done', `"${version.name}" runs on this job already. Go on with it.`, {
      runId: running,
    });
  }
  const id = await insertRun(act.sql, { ...asked, byId: act.actor.id });
  await act.event('procedure.started', {
    engineId: job.engineId,
    jobId: job.id,
    data: { runId: id, procedure: version.name, version: version.number },
  });
  return { id };
}

/** Marks a step done, skipped with a reason, or signed by a second person. */
export async function markStep(
  act: Act,
  asked: { readonly runId: string; readonly stepId: string } & MarkStep,
): Promise<{ id: string; standing: RunStep['standing'] }> {
  const job = await openJob(act, found(await findJobOfRun(act.sql, asked.runId), 'such run of a procedure'));
  const facts = found((await findRunFacts(act.sql, { runId: asked.runId }))[0], 'such run of a procedure');
  const step = found(
    facts.steps.find(({ id }) => id === asked.stepId),
    'such step in this procedure',
  );
  const reason = asked.reason?.trim() ?? '';
  refuseWrongMark(facts, step, { mark: asked.mark, reason, byId: act.actor.id });
  if (asked.mark === 'done') await refuseWhileShort(act, facts, step);
  await insertMark(act.sql, { runId: facts.run.id, stepId: step.id, mark: asked.mark, reason, byId: act.actor.id });
  const loosened =
    facts.run.kind === 'strip' && asked.mark === 'done' && step.fastenerSet !== null
      ? await setLoosened(act, { jobId: job.id, setCode: step.fastenerSet })
      : undefined;
  await act.event('step.marked', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      runId: facts.run.id,
      procedure: facts.run.name,
      step: step.ordinal,
      title: step.title,
      mark: asked.mark,
      reason,
      ...(loosened === undefined ? {} : { loosened }),
    },
  });
  const mark = { runId: facts.run.id, stepId: step.id, mark: asked.mark, reason, byId: act.actor.id, by: '', at: '' };
  return { id: step.id, standing: standingOf(step, [...facts.marks, mark]) };
}

function refuseWrongMark(facts: RunFacts, step: StepRow, asked: { mark: Mark; reason: string; byId: string }): void {
  const marks = facts.marks.filter(({ stepId }) => stepId === step.id);
  const made = (mark: Mark) => marks.find((row) => row.mark === mark);
  const same = made(asked.mark);
  const where = `Step ${step.ordinal}, ${step.title}`;
  if (same !== undefined) throw new ProblemError('already-done', `${where}: ${same.by} marked it so already.`);
  const [done, skipped] = [made('done'), made('skipped')];
  if (skipped !== undefined)
    throw new ProblemError('conflict', `${where}: ${skipped.by} skipped it (${skipped.reason}).`);
  if (asked.mark === 'skipped') {
    if (done !== undefined) throw new ProblemError('conflict', `${where}: ${done.by} has done it.`);
    if (asked.reason === '') throw new ProblemError('refused', `${where}: say why it is skipped.`);
  }
  if (asked.mark === 'second person') {
    if (!step.secondPerson) throw new ProblemError('refused', `${where} asks for no second person.`);
    if (done === undefined)
      throw new ProblemError('conflict', `${where} is not done yet: the second person marks it after.`);
    if (done.byId === asked.byId) {
      throw new ProblemError('refused', `${where}: you did it yourself. Another person has to look and mark it.`);
    }
  }
}

/** Work stops while a piece of this or an earlier step is short: it may be in the engine. */
async function refuseWhileShort(act: Act, { run, steps, marks, pieces }: RunFacts, step: StepRow): Promise<void> {
  if (run.kind !== 'strip') return;
  const blind = await blindTrays(act.sql, { jobId: run.jobId, viewerId: act.actor.id });
  const upToHere = steps.filter((other) => other.ordinal <= step.ordinal && standingOf(other, marks) !== 'skipped');
  const short = upToHere.flatMap(({ id, ordinal }) =>
    pieces
      .filter((piece) => piece.stepId === id && shortOf(piece) > 0)
      .map((piece) => {
        const isBlind = piece.trayId !== null && blind.has(piece.trayId);
        const counts = isBlind ? {} : { expected: piece.expected, off: piece.off };
        const tells = isBlind ? 'short' : piece.counted ? `${piece.off} of ${piece.expected} off` : 'not counted yet';
        return {
          words: `${piece.name} (step ${ordinal}): ${tells}`,
          pieceId: piece.pieceId,
          stepPieceId: piece.id,
          ...counts,
        };
      }),
  );
  if (short.length === 0) return;
  throw new ProblemError(
    'conflict',
    `Stop: ${short.map(({ words }) => words).join('; ')}. Count them off, find them, or say that they were never there or may be inside.`,
    { shortPieces: short },
  );
}

import type { FastenerSetStanding, InspectFasteners } from '#contracts/assembly.ts';
import { afterLoosening } from '#domain/fasteners/reuse.ts';
import { openJob } from '#features/intake/service.ts';
import { actOnObligation, openObligation } from '#features/obligations/service.ts';
import { demandPart } from '#features/stores/demands/service.ts';
import type { Act } from '#platform/act.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { fastenerSetOf } from './fastener-sets.ts';
import { findJob } from './queries.ts';
import {
  findFastenerPart,
  findRenewals,
  findSetsOfStepsDone,
  insertRenewal,
  isLooseAlready,
} from './renewal-queries.ts';
import { findSets, type SetRow } from './torque-queries.ts';
import { setAfter } from './torque-service.ts';

interface JobOfSet {
  readonly jobId: string;
  readonly engineId: string;
}

/**
 * What loosening a set asks for by its reuse rule: an inspection (an obligation on the inside), as many new fasteners, or
 * nothing; once until it is pulled again. The caller holds the job (openJob) and tells of it in its own event.
 * @returns what was asked for, in words; undefined: nothing
 */
export async function setLoosened(
  act: Act,
  of: { readonly jobId: string; readonly setCode: string },
): Promise<string | undefined> {
  const job = found(await findJob(act.sql, of.jobId), 'such job');
  const row = (await findSets(act.sql, job.revisionId)).find(({ code }) => code === of.setCode);
  if (row === undefined) return undefined;
  const asked = afterLoosening(fastenerSetOf(row));
  if (asked.kind === 'nothing' || (await isLooseAlready(act.sql, of))) return undefined;
  return asked.kind === 'inspect'
    ? oblige(act, job, {
        row,
        fastener: null,
        words: `${row.name} loosened: look at thread, shank and length of each before it is used again.`,
      })
    : renew(act, job, { row, fastener: null, count: asked.count });
}

/**
 * Pieces came off whose strip step was done before, in an earlier opening say, and is not marked once more: what holds them
 * was loosened all the same. As setLoosened for each such set; while the step is still to be done, its mark asks.
 */
export async function loosenedWithPieces(
  act: Act,
  of: { readonly jobId: string; readonly pieceIds: readonly string[] },
): Promise<readonly string[]> {
  const words: string[] = [];
  for (const setCode of await findSetsOfStepsDone(act.sql, of)) {
    const asked = await setLoosened(act, { jobId: of.jobId, setCode });
    if (asked !== undefined) words.push(asked);
  }
  return words;
}

/** One fastener that was turned past yield comes out for good: a new one is asked for. */
export async function pastYield(
  act: Act,
  job: JobOfSet,
  of: { readonly row: SetRow; readonly fastener: number },
): Promise<string> {
  return renew(act, job, { ...of, count: 1 });
}

/** Settles a set's inspection in the name of who looked at each fastener. */
export async function inspectFasteners(act: Act, jobId: string, asked: InspectFasteners): Promise<FastenerSetStanding> {
  await openJob(act, jobId);
  const job = found(await findJob(act.sql, jobId), 'such job');
  const row = found(
    (await findSets(act.sql, job.revisionId)).find(({ code }) => code === asked.set),
    'such fastener set on the sheet',
  );
  const due = (await findRenewals(act.sql, jobId)).filter(
    ({ setCode, obligationId, open }) => setCode === row.code && obligationId !== null && open,
  );
  if (row.reuse !== 'inspect') {
    throw new ProblemError('refused', `${row.name}: the sheet asks for no inspection of these.`);
  }
  if (due.length === 0) throw new ProblemError('already-done', `${row.name}: no inspection is asked for.`);
  for (const { obligationId } of due) {
    if (obligationId === null) continue;
    await actOnObligation(act, { obligationId, act: 'discharged', reason: `Looked at each: ${asked.words}` });
  }
  await act.event('fasteners.inspected', {
    engineId: job.engineId,
    jobId,
    data: { set: row.name, reason: asked.words },
  });
  return setAfter(act.sql, row, { jobId, openedAt: job.openedAt });
}

async function renew(
  act: Act,
  job: JobOfSet,
  of: { readonly row: SetRow; readonly fastener: number | null; readonly count: number },
): Promise<string> {
  const { row, fastener, count } = of;
  const which = fastener === null ? row.name : `${row.name}, position ${fastener}`;
  const part = await findFastenerPart(act.sql, { jobId: job.jobId, setCode: row.code });
  if (part === undefined) {
    const words = `${which}: used once and loosened; ${count} new needed, and stores knows no part for them.`;
    return oblige(act, job, { row, fastener, words });
  }
  const { demandLineId } = await demandPart(act, {
    jobId: job.jobId,
    partId: part.id,
    quantity: count,
    words: `${which}: used once, loosened`,
  });
  const { id: byId } = act.actor;
  await insertRenewal(act.sql, { jobId: job.jobId, setCode: row.code, fastener, cause: { demandLineId }, byId });
  return `${which}: ${count} new asked of stores (${part.number})`;
}

async function oblige(
  act: Act,
  job: JobOfSet,
  of: { readonly row: SetRow; readonly fastener: number | null; readonly words: string },
): Promise<string> {
  const { id: byId } = act.actor;
  const { row, fastener, words } = of;
  const obligationId = await openObligation(act, {
    engineId: job.engineId,
    jobId: job.jobId,
    words,
    inside: true,
    cause: { raisedById: byId },
  });
  await insertRenewal(act.sql, { jobId: job.jobId, setCode: row.code, fastener, cause: { obligationId }, byId });
  return words;
}

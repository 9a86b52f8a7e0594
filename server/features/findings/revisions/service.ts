import type { MovedToRevision, MoveToRevision, NewerRevision } from '#contracts/revision-moves.ts';
import { bindToRevision, openJob } from '#features/intake/service.ts';
import { specOf } from '#features/specs/service.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { jobOnBench, judgeAnew, judgedOtherwise } from '../judging/service.ts';
import { findNewer } from './queries.ts';

/** The newest revision of a job's sheet, when that is a newer one, and what it would judge otherwise; keeps nothing. */
export async function newerRevision(sql: Sql, jobId: string): Promise<NewerRevision> {
  const bench = await jobOnBench(sql, jobId);
  const newer = await findNewer(sql, bench.job.revisionId);
  if (newer === undefined) return { newer: null };
  const otherwise = await judgedOtherwise(sql, { ...bench, sheet: await specOf(sql, newer.id) });
  return { newer: { ...newer, boundTo: bench.job.revisionId, otherwise: [...otherwise] } };
}

/**
 * Moves a job to a newer revision of its sheet. Findings that it judges otherwise are superseded by new ones from the same
 * readings; what was found before stays as it was judged.
 */
export async function moveToRevision(
  act: Act,
  asked: MoveToRevision & { readonly jobId: string },
): Promise<MovedToRevision> {
  const job = await openJob(act, asked.jobId);
  const reason = asked.reason.trim();
  const { from, to } = await bindToRevision(act, job, { revisionId: asked.revisionId, reason });
  const outcomes = await judgeAnew(act, await jobOnBench(act.sql, job.id));
  const findings = outcomes.flatMap((outcome) => outcome.findings);
  await act.event('revision.moved', {
    engineId: job.engineId,
    jobId: job.id,
    data: {
      from,
      to,
      reason,
      findings: findings.map(({ dimension, name, verdict }) => ({ dimension, name, verdict })),
    },
  });
  return { from, to, findings };
}

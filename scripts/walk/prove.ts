import type { HandBackPage } from '#contracts/hand-back.ts';
import { refusalOf } from './client.ts';
import type { Job, Walk } from './context.ts';
import { callOff } from './parts.ts';
import { heading, refused, say } from './say.ts';

/** Proves the engine by every proof of its sheet, each signed by a second person. */
export async function prove(walk: Walk, job: Job): Promise<void> {
  heading('Prove');
  const { proofs } = await walk.measurer.get<HandBackPage>(`/jobs/${job.jobId}/hand-back`);
  for (const proof of proofs) {
    const made = await walk.measurer.post<{ id: string }>(`/jobs/${job.jobId}/proofs`, {
      proof: proof.code,
      passed: true,
      words: 'as the sheet asks',
    });
    await walk.stripper.post(`/proofs/${made.id}/sign-off`, {});
    say(
      `${proof.name}: passed, signed by ${walk.stripper.name}${proof.caution === '' ? '' : `  [caution: ${proof.caution}]`}`,
    );
  }
}

/** Hands the engine back, once nothing is against it any more. */
export async function handBack(walk: Walk, job: Job): Promise<void> {
  heading('Hand back');
  const { reasons } = await walk.writer.get<HandBackPage>(`/jobs/${job.jobId}/hand-back`);
  if (reasons.length > 0) {
    refused((await refusalOf(walk.writer.post(`/jobs/${job.jobId}/hand-back`, {}))).detail);
    await callOff(walk, job);
  }
  await walk.writer.post(`/jobs/${job.jobId}/hand-back`, {
    note: 'Run in: two tanks at half throttle, then check the lash again',
  });
  say(`job ${job.number} handed back to its owner`);
}

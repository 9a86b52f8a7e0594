import type { JobDemands, Reserved } from '#contracts/demands.ts';
import type { Kit } from '#contracts/parts.ts';
import type { Job, Walk } from './context.ts';
import { heading, say } from './say.ts';

/** Asks for the family's kit all at once; what is missing is named, bought in, and asked for again. */
export async function reserve(walk: Walk, job: Job): Promise<void> {
  heading('Reserve the kit, all or nothing');
  const { items: kits } = await walk.clerk.get<{ items: Kit[] }>(`/kits?familyId=${walk.familyId}`);
  const kit = kits.find(({ name }) => /top end/i.test(name)) ?? kits[0];
  if (kit === undefined) throw new Error('This family has no kit.');
  await walk.clerk.post(`/jobs/${job.jobId}/demands`, { kitId: kit.id });
  const asked = await walk.clerk.post<Reserved>(`/jobs/${job.jobId}/reservations`, { allOrNothing: true });
  say(`${kit.name}: ${asked.words}`);
  for (const { part, missing } of asked.shortages) {
    say(`short: ${missing} × ${part.name} (${part.number})`);
    await receive(walk, part.id, missing);
  }
  if (!asked.complete) {
    const again = await walk.clerk.post<Reserved>(`/jobs/${job.jobId}/reservations`, { allOrNothing: true });
    say(`after the delivery: ${again.words}`);
  }
}

async function receive(walk: Walk, partId: string, quantity: number): Promise<void> {
  await walk.clerk.post('/receipts', { partId, binId: walk.binId, quantity, lotCode: 'WALK' });
}

/** Issues everything the job holds in stores; what was asked for since (a shim) is reserved first. */
export async function issueReserved(walk: Walk, job: Job): Promise<string> {
  await walk.clerk.post(`/jobs/${job.jobId}/reservations`, { allOrNothing: false });
  const { lines } = await walk.clerk.get<JobDemands>(`/jobs/${job.jobId}/demands`);
  const held = lines.filter(({ reserved }) => reserved > 0);
  for (const { id, reserved } of held) await walk.clerk.post(`/demand-lines/${id}/issue`, { quantity: reserved });
  const pieces = held.reduce((sum, { reserved }) => sum + reserved, 0);
  return `${pieces} pieces of ${held.length} lines issued by ${walk.clerk.name}`;
}

export async function issue(walk: Walk, job: Job): Promise<void> {
  heading('Issue the parts');
  say(await issueReserved(walk, job));
}

/** What the job asked for and did not need is called off. */
export async function callOff(walk: Walk, job: Job): Promise<void> {
  const { lines } = await walk.clerk.get<JobDemands>(`/jobs/${job.jobId}/demands`);
  for (const line of lines.filter(({ reserved, short, notAsked }) => reserved + short + notAsked > 0)) {
    await walk.clerk.post(`/demand-lines/${line.id}/cancel`, { words: 'not needed after all' });
    say(`called off: ${line.part.name}`);
  }
}

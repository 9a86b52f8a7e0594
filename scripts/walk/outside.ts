import type { z } from 'zod';
import type { SentOut } from '#contracts/custody.ts';
import type { Job, Walk } from './context.ts';
import { heading, say } from './say.ts';
import type { TrayList } from './strip.ts';

const inTwoWeeks = (): string => new Date(Date.now() + 14 * 86_400_000).toISOString().slice(0, 10);

/** The cylinder goes to the plater and comes back, counted both ways. */
export async function sendCylinderOut(walk: Walk, job: Job): Promise<void> {
  heading('Send the cylinder to the plater, and take it back');
  const trays = await walk.measurer.get<TrayList>(`/jobs/${job.jobId}/trays`);
  const cylinder = trays.items.find(({ layer }) => layer === 'cylinder');
  if (cylinder === undefined) throw new Error('The cylinder has no tray of its own.');
  const counts = cylinder.pieces.map(({ pieceId, count }) => ({ trayId: cylinder.id, pieceId, counted: count ?? 0 }));
  const dueOn = inTwoWeeks();
  const sent = await walk.measurer.post<z.infer<typeof SentOut>>(`/jobs/${job.jobId}/outside-work`, {
    subject: { trayId: cylinder.id },
    vendorId: walk.vendorId,
    work: 'Replate the bore to 88.000 +0.012 mm',
    dueOn,
    counts,
  });
  say(`tray ${cylinder.label} is with the plater, due back ${dueOn}; the job waits for outside work`);
  await walk.measurer.post(`/outside-work/${sent.id}/back`, { bayId: walk.bays.rack, counts });
  await walk.measurer.post(`/engines/${job.engineId}/take`, {
    bayId: walk.bays.rack,
    engine: false,
    trayIds: [cylinder.id],
    counts,
  });
  say('back, counted, and in hand again');
}

import type { Accepted, Handover } from '#contracts/custody.ts';
import { refusalOf } from './client.ts';
import type { Job, Walk } from './context.ts';
import { heading, refused, say } from './say.ts';
import type { TrayList } from './strip.ts';

/** Offered, counted blind, accepted with a difference that is then cleared up by the lead. */
export async function handOver(walk: Walk, job: Job, placeId: string): Promise<void> {
  heading(`Hand over from ${walk.stripper.name} to ${walk.measurer.name}`);
  const trays = await walk.stripper.get<TrayList>(`/jobs/${job.jobId}/trays`);
  const offer = await walk.stripper.post<{ id: string }>(`/jobs/${job.jobId}/handovers`, {
    receiverId: walk.measurer.id,
    placeId,
    includeEngine: true,
    trayIds: trays.items.map(({ id }) => id),
    looseWords: 'Base studs, not torqued',
  });
  const seen = await walk.measurer.get<Handover>(`/handovers/${offer.id}`);
  say(`offered: ${seen.stateWords}; ${seen.trays.length} trays; the giver's numbers are hidden from the receiver`);
  refused((await refusalOf(walk.measurer.post(`/handovers/${offer.id}/accept`))).detail);
  const given = new Map(
    trays.items.flatMap(({ id, pieces }) => pieces.map(({ name, count }) => [`${id} ${name}`, count ?? 0] as const)),
  );
  const odd = seen.trays.flatMap(({ lines }) => lines).find(({ name }) => /dowel/i.test(name));
  for (const tray of seen.trays) {
    if (tray.lines.length === 0) continue;
    const lines = tray.lines.map(({ lineId, name }) => ({
      lineId,
      counted: (given.get(`${tray.trayId} ${name}`) ?? 0) - (lineId === odd?.lineId ? 1 : 0),
    }));
    await walk.measurer.post(`/handovers/${offer.id}/trays/${tray.trayId}/count`, { lines });
  }
  const accepted = await walk.measurer.post<Accepted>(`/handovers/${offer.id}/accept`);
  for (const { tray, piece, given: was, counted } of accepted.differences) {
    say(`${accepted.outcome}: ${piece} in ${tray}, ${was} given, ${counted} counted`);
  }
  refused((await refusalOf(walk.measurer.post(`/handovers/${offer.id}/accept`))).detail);
  for (const obligation of accepted.obligations) {
    await walk.lead.post(`/obligations/${obligation}/discharge`, {
      reason: 'Found on the strip bench, put into its tray',
    });
    say(`${walk.lead.name} discharged it: found on the strip bench`);
  }
}

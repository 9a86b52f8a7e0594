import type { PackingList } from '#contracts/boxes.ts';
import type { Person } from './walk/client.ts';

interface At {
  readonly lead: Person;
  readonly writer: Person;
  readonly nadia: Person;
  readonly familyId: string;
  readonly bayId: string;
}

/** An owner says no to the quote of an engine that lies open, and fetches it in boxes. */
export async function boxesActs({ lead, writer, nadia, familyId, bayId }: At): Promise<void> {
  const job = await writer.post<{ id: string; engineId: string }>('/jobs', {
    engine: { serial: `H355-B${Date.now().toString().slice(-6)}`, familyId },
    owner: { name: 'Tove Brandal', contact: '' },
    hours: '412',
    complaint: 'Knocks under load',
    bayId,
  });
  await nadia.post(`/engines/${job.engineId}/take`, { bayId, trayIds: [] });
  const opening = await nadia.post<{ id: string }>(`/jobs/${job.id}/openings`);
  const tray = await nadia.post<{ id: string }>(`/jobs/${job.id}/trays`, { name: 'Covers and bolts' });
  await nadia.post(`/openings/${opening.id}/pieces/off`, {
    pieces: [{ byHand: { name: 'valve cover bolt', expected: 4 }, count: 4 }],
    trayId: tray.id,
  });
  const each = { minor: '184000', currency: 'EUR' };
  const quote = await writer.post<{ id: string }>(`/jobs/${job.id}/quotes`, {
    lines: [{ kind: 'labour', words: 'Rebuild', quantity: 1, each }],
  });
  await writer.post(`/quotes/${quote.id}/answer`, { yes: false, saidBy: 'Tove Brandal', how: 'by telephone' });
  const { boxes } = await lead.get<PackingList>(`/jobs/${job.id}/packing-list`);
  await lead.post(`/jobs/${job.id}/hand-back-in-boxes`, {
    cause: 'no',
    reason: 'It costs more than the machine',
    counts: boxes.flatMap(({ tray: box, lines }) =>
      lines.map(({ pieceId, count }) => ({ trayId: box?.id ?? null, pieceId, count: count ?? 0 })),
    ),
  });
}

import sharp from 'sharp';
import type { Photo } from '#contracts/photos.ts';
import type { Person } from './walk/client.ts';

/** Photos of an engine: taken, written under, removed, and one taken out of the store for good. */
export async function photoActs(
  lead: Person,
  technician: Person,
  { id, engineId }: { readonly id: string; readonly engineId: string },
): Promise<void> {
  const plain = (background: string) =>
    sharp({ create: { width: 640, height: 480, channels: 3, background } })
      .jpeg()
      .toBuffer();
  const send = async (background: string, caption: string) =>
    technician.sendFile<Photo>(
      `/jobs/${id}/photos?place=cylinder&caption=${encodeURIComponent(caption)}`,
      await plain(background),
      'image/jpeg',
    );
  const kept = await send('#8a7f6a', 'As it came out of the wash');
  await technician.post(`/photos/${kept.id}/notes`, { caption: 'Scored on the exhaust side', onSheet: true });
  const wrong = await send('#222222', 'Too dark');
  await lead.post(`/photos/${wrong.id}/remove`, { reason: 'Nothing can be seen on it' });
  await lead.post(`/photos/${wrong.id}/discard`, { reason: 'Nothing can be seen on it' });
  await lead.get(`/engines/${engineId}/photos`);
  await lead.get('/photos/check');
}

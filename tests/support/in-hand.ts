import { type Shop, takeIn } from './shop.ts';

let serials = 0;

/** An engine in the technician's hands, nothing begun on it. */
export async function inHand(shop: Shop) {
  serials += 1;
  const serial = `H355-H${100 + serials}`;
  const { jobId, engineId } = await takeIn(shop, { serial });
  await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
  return { jobId, engineId, serial };
}

/** An open engine in the technician's hands, and a tray with so many dowels. */
export async function inHandWithDowels(shop: Shop, dowels = 8) {
  const engine = await inHand(shop);
  const as = shop.as.technician;
  const opening = await as.post(`/api/jobs/${engine.jobId}/openings`);
  const tray = await as.post(`/api/jobs/${engine.jobId}/trays`, { name: 'Dowels' });
  const openingId: string = opening.body.id;
  const trayId: string = tray.body.id;
  const label: string = tray.body.label;
  await as.post(`/api/openings/${openingId}/pieces/off`, {
    pieces: [{ byHand: { name: 'dowel' }, count: dowels }],
    trayId,
  });
  return { ...engine, openingId, trayId, label };
}
export type InHandWithDowels = Awaited<ReturnType<typeof inHandWithDowels>>;

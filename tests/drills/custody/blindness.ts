import type { Handover, Tray } from '#contracts/custody.ts';
import type { StaffName } from '../../support/shop.ts';
import { type Belief, openOffers } from './state.ts';
import type { World } from './world.ts';

/** Nobody but the giver is told what a tray holds before its receiver has counted it; then everybody is. */
export async function checkBlindness(
  { shop, names }: World,
  { belief, engine, who }: { belief: Belief; engine: 0 | 1; who: StaffName },
): Promise<void> {
  const offers = openOffers(belief.engines[engine]);
  const items: Tray[] = (await shop.as[who].get(`/api/jobs/${names.engines[engine].jobId}/trays`)).body.items;
  for (const offer of offers) {
    const read: Handover = (await shop.as[who].get(`/api/handovers/${names.id(offer.key)}`)).body;
    for (const { tray, attempts, lines } of offer.trays) {
      const blind = attempts === 0 && who !== offer.giver;
      const shown = read.trays.find(({ trayId }) => trayId === names.id(tray))?.lines ?? [];
      const hidden = shown.every(({ given }) => given === null);
      if (shown.length !== lines.length || hidden !== blind) {
        throw new Error(`${who} reads of ${offer.key}: ${JSON.stringify(shown)}; it is ${blind ? '' : 'not '}blind`);
      }
      const pieces = items.find(({ id }) => id === names.id(tray))?.pieces ?? [];
      if (pieces.some(({ count }) => (count === null) !== blind)) {
        throw new Error(`${who} reads of tray ${tray}: ${JSON.stringify(pieces)}; it is ${blind ? '' : 'not '}blind`);
      }
    }
  }
}

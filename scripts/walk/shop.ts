import type { Floor } from '#contracts/floor.ts';
import type { ShopFacts } from '#contracts/shop.ts';
import { type Person, Refused } from './client.ts';
import type { Job, Walk } from './context.ts';
import { heading, say } from './say.ts';

function one<Thing>(things: readonly Thing[], is: (thing: Thing) => boolean, what: string): Thing {
  const found = things.find(is);
  if (found === undefined) throw new Error(`The shop has no ${what}: the walk needs the demo shop.`);
  return found;
}

/** What the walk needs to know of the shop, by name. */
export async function findShop(person: Person): Promise<Pick<Walk, 'familyId' | 'vendorId' | 'bays' | 'binId'>> {
  const shop = await person.get<ShopFacts>('/shop');
  const { items: bins } = await person.get<{ items: { id: string }[] }>('/bins');
  return {
    familyId: one(shop.families, ({ code }) => code === 'H355', 'Halden 355').id,
    vendorId: one(shop.vendors, ({ trade }) => /plat/i.test(trade), 'plater').id,
    bays: {
      rack: one(shop.bays, ({ kind }) => kind === 'rack', 'rack').id,
      strip: one(shop.bays, ({ kind }) => kind === 'strip', 'strip bay').id,
    },
    binId: one(bins, () => true, 'bin').id,
  };
}

/** Takes the engine to the strip bay, or works on it at the rack while that bay is full. Returns the bay it is in. */
export async function takeToBench(walk: Walk, job: Job): Promise<string> {
  heading(`${walk.stripper.name} takes it`);
  const take = { bayId: walk.bays.rack, trayIds: [] };
  try {
    await walk.stripper.post(`/engines/${job.engineId}/take`, { ...take, toBayId: walk.bays.strip });
    say('into the strip bay');
    return walk.bays.strip;
  } catch (error) {
    if (!(error instanceof Refused) || !error.problem.type.endsWith('bay-full')) throw error;
    say(`${error.problem.detail} It is worked on at the rack`);
    await walk.stripper.post(`/engines/${job.engineId}/take`, take);
    const floor = await walk.writer.get<Floor>('/floor');
    say(
      `the floor says: ${JSON.stringify(floor.engines.find(({ serial }) => serial === walk.serial)?.waits.map(({ waitsFor, words }) => `${waitsFor}: ${words}`))}`,
    );
    return walk.bays.rack;
  }
}

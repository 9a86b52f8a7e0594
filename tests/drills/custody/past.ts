import type { CustodyPeriod as PeriodOnWire } from '#contracts/custody.ts';
import { type CustodyPeriod, heldAt } from '#domain/custody/holding.ts';
import type { Facts } from './facts.ts';
import type { World } from './world.ts';

const must = (holds: boolean, words: string): void => {
  if (!holds) throw new Error(words);
};

/** Asked who held what then, the service answers what was seen then, and what the ledger says when it is replayed. */
export async function checkPast(
  world: World,
  { seen, ledger }: { seen: Facts; ledger: ReadonlyMap<string, readonly CustodyPeriod[]> },
): Promise<void> {
  const { shop, names } = world;
  for (const { index, facts } of seen.engines) {
    const { engineId } = names.engines[index];
    const at = encodeURIComponent(seen.at);
    const items: PeriodOnWire[] = (await shop.as.clerk.get(`/api/engines/${engineId}/custody?at=${at}`)).body.items;
    const whole: PeriodOnWire[] = (await shop.as.clerk.get(`/api/custody?engineId=${engineId}&at=${at}`)).body.items;
    const idsOf = (periods: readonly PeriodOnWire[]) =>
      periods
        .map(({ id }) => id)
        .toSorted()
        .join(' ');
    must(idsOf(items) === idsOf(whole), `the shop and the engine tell otherwise who held what at ${seen.at}`);
    const key = (id: string) => (id === engineId ? 'engine' : names.key(id));
    const told = items
      .map(({ subject, holder, place }) => {
        const where = place === null ? 'no bay' : key(place.id);
        return `${key(subject.id)}: ${key(holder.id)} in ${where}`;
      })
      .toSorted();
    const then = facts.custody;
    must(
      JSON.stringify(told) === JSON.stringify(then),
      `who held what at ${seen.at}: told ${told.join('; ')}, seen ${then.join('; ')}`,
    );
    for (const { subject, from } of items) {
      const instant =
        Number(BigInt(Math.round(Date.parse(seen.at))) * 1000n) +
        Number(seen.at.match(/\.\d{3}(\d{1,3})/)?.[1]?.padEnd(3, '0') ?? 0);
      const period = heldAt(ledger.get(subject.id) ?? [], instant);
      must(
        period !== undefined,
        `the ledger has nobody hold ${key(subject.id)} at ${seen.at}, the service since ${from}`,
      );
    }
  }
}

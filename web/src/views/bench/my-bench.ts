import type { HandoverInList, TrayInShop } from '#contracts/custody.ts';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import type { StopPoint } from '#contracts/procedure-runs.ts';

export interface BenchFacts {
  readonly floor: Floor;
  readonly trays: readonly TrayInShop[];
  readonly handovers: readonly HandoverInList[];
  readonly stops: readonly StopPoint[];
  readonly personId: string;
  /** Where this terminal stands; null: nowhere in particular, or not known. */
  readonly terminalBayId: string | null;
}

/** An engine with what of it I hold; `mine` false: only trays of it are with me. */
export interface Held {
  readonly engine: EngineStanding;
  readonly mine: boolean;
  readonly trays: readonly TrayInShop[];
  readonly elsewhere: readonly TrayInShop[];
}

/** What of one job rests in one bay. */
export interface Resting {
  readonly engine: EngineStanding;
  readonly bay: { readonly id: string; readonly name: string };
  readonly here: boolean;
  readonly itself: boolean;
  readonly trays: readonly TrayInShop[];
}

export interface MyBench {
  readonly held: readonly Held[];
  readonly toMe: readonly HandoverInList[];
  readonly byMe: readonly HandoverInList[];
  readonly stops: readonly StopPoint[];
  readonly resting: readonly Resting[];
}

const ofJob = (trays: readonly TrayInShop[], engine: EngineStanding) =>
  trays.filter(({ job }) => job.id === engine.job.id);

function heldOf({ floor, trays, personId }: BenchFacts): Held[] {
  return floor.engines.flatMap((engine) => {
    const mine = engine.holder?.kind === 'person' && engine.holder.id === personId;
    const its = ofJob(trays, engine);
    const isMine = ({ held }: TrayInShop) => held?.kind === 'person' && held.id === personId;
    const own = its.filter(isMine);
    if (!mine && own.length === 0) return [];
    return [{ engine, mine, trays: own, elsewhere: its.filter((tray) => !isMine(tray)) }];
  });
}

function restingOf({ floor, trays, terminalBayId }: BenchFacts): Resting[] {
  const groups = floor.engines.flatMap((engine) =>
    floor.bays.flatMap(({ id, name }) => {
      const itself = engine.holder?.kind === 'bay' && engine.holder.id === id;
      const there = ofJob(trays, engine).filter(({ held }) => held?.kind === 'bay' && held.id === id);
      if (!itself && there.length === 0) return [];
      return [{ engine, bay: { id, name }, here: id === terminalBayId, itself, trays: there }];
    }),
  );
  const order = new Map(floor.bays.map(({ id }, place) => [id, place]));
  return groups.toSorted(
    (a, b) =>
      Number(b.here) - Number(a.here) ||
      (order.get(a.bay.id) ?? 0) - (order.get(b.bay.id) ?? 0) ||
      Number(b.itself) - Number(a.itself),
  );
}

/** Everything that concerns one technician, out of what stands where. */
export function myBenchOf(facts: BenchFacts): MyBench {
  const { handovers, stops, personId } = facts;
  return {
    held: heldOf(facts).toSorted((a, b) => Number(b.mine) - Number(a.mine)),
    toMe: handovers.filter(({ receiver }) => receiver.id === personId),
    byMe: handovers.filter(({ giver }) => giver.id === personId),
    stops: stops.filter(({ doneBy }) => doneBy.id !== personId),
    resting: restingOf(facts),
  };
}

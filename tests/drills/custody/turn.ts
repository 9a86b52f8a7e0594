import type { RoomName } from '../../support/shop.ts';
import type { Act } from './acts.ts';
import { type Belief, type EngineBelief, type Held, isOffered } from './state.ts';

/** Every way in which the service may refuse; empty: it has to do it. Several at once: it may say any of them. */
export type Refusals = Set<number>;

export interface Turn {
  readonly act: Act;
  readonly belief: Belief;
  readonly engine: EngineBelief;
  /** The engine as it was when the person counted and asked: somebody else may have come first. */
  readonly seen: EngineBelief;
  readonly refusals: Refusals;
  /** What stands though the act is refused: a first count that differs. */
  kept?: () => void;
  /** Makes keys for what this act brings into being. */
  readonly key: (what: string) => string;
}

const ROOM: Readonly<Record<RoomName, number>> = { strip: 1, measuring: 1, assembly: 2, rack: 40 };

/** Whether a bay has room for an engine that comes or stays there. */
export function isFull(belief: Belief, engine: EngineBelief, bay: RoomName): boolean {
  const others = belief.engines.filter((other) => other !== engine && other.held.place === bay).length;
  return others >= ROOM[bay];
}

/** The trays asked for, as far as they are this engine's; a foreign one is refused. */
export function traysOf({ engine, refusals }: Turn, keys: readonly string[]) {
  const trays = engine.trays.filter(({ key }) => keys.includes(key));
  if (trays.length < new Set(keys).size) refusals.add(404);
  return trays;
}

export const isAway = (held: Held): boolean => 'vendor' in held.holder;

/** What is done at the engine itself waits until it is back from a vendor. */
export function refuseWhileAway({ engine, refusals }: Turn): void {
  if (isAway(engine.held)) refusals.add(409);
}

/** An engine on offer stays as it was offered. */
export function refuseWhileOffered({ engine, refusals }: Turn): void {
  if (isOffered(engine, { engine: true, trays: [] })) refusals.add(409);
}

/** What goes in or comes out, is checked or closed waits as well while the engine is on offer. */
export function refuseAtTheEngine(turn: Turn): void {
  refuseWhileAway(turn);
  refuseWhileOffered(turn);
}

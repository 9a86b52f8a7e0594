import fc from 'fast-check';
import type { Shop } from '../../support/shop.ts';
import { draws } from './acts.ts';
import { checkClosings, checkLedger, checkPast, checkPieces } from './checks.ts';
import { Again, AtOnce, Look, type Model, OneAct, type Real } from './commands.ts';
import type { Facts } from './facts.ts';
import { freshBelief } from './state.ts';
import { clearAway, newWorld } from './world.ts';

const anyAct = draws.map((draw) => new OneAct(draw));
const anyPair = fc
  .tuple(draws, draws, fc.boolean())
  .map(([one, other, sameEngine]) => new AtOnce(one, sameEngine ? { ...other, engine: one.engine } : other));
/** The races that the trade knows: two answers to one offer, two counts of one tray, closing while a reading comes. */
const knownRaces = [
  ['accept', 'accept'],
  ['accept', 'withdraw'],
  ['accept', 'decline'],
  ['count', 'count'],
  ['count', 'accept'],
  ['close', 'read'],
  ['close', 'count off'],
  ['close', 'close'],
  ['offer', 'offer'],
  ['take', 'take'],
  ['accept', 'move'],
  ['fitted', 'fitted'],
  ['back', 'back'],
  ['open', 'open'],
] as const;
const knownRace = fc
  .tuple(draws, draws, fc.constantFrom(...knownRaces))
  .map(
    ([one, other, [kind, otherKind]]) =>
      new AtOnce({ ...one, kind }, { ...other, kind: otherKind, engine: one.engine, pick: one.pick, apt: one.apt }),
  );

const commandsOf = (length: number) =>
  fc.commands(
    [
      ...Array.from({ length: 10 }, () => anyAct),
      anyPair,
      knownRace,
      fc.constant(null).map(() => new Again()),
      draws.map((draw) => new Look(draw)),
    ],
    { maxCommands: length, size: 'max' },
  );

async function history(
  shop: Shop,
  commands: Iterable<fc.AsyncCommand<Model, Real>>,
  onStep: () => void,
): Promise<void> {
  const world = await newWorld(shop);
  const seen: Facts[] = [];
  try {
    await fc.asyncModelRun(
      () => ({ model: { belief: freshBelief(), step: 0 }, real: { world, seen, last: undefined, onStep } as Real }),
      commands,
    );
    const ledger = await checkLedger(world);
    await checkPieces(world);
    await checkClosings(world);
    for (const index of [0.1, 0.4, 0.7, 1]) {
      const then = seen[Math.ceil(seen.length * index) - 1];
      if (then !== undefined) await checkPast(world, { seen: then, ledger });
    }
  } finally {
    await clearAway(world);
  }
}

export interface Drilled {
  readonly steps: number;
  readonly histories: number;
}

/** Drives random histories until so many steps are done; a failure throws with its seed and the shrunk history. */
export async function drill(
  shop: Shop,
  { steps, seed, onProgress }: { steps: number; seed: number; onProgress?: (done: Drilled) => void },
): Promise<Drilled> {
  let done = 0;
  let histories = 0;
  const count = () => {
    done += 1;
  };
  while (done < steps) {
    await fc.assert(
      fc.asyncProperty(commandsOf(120), (commands) => history(shop, commands, count)),
      { seed: seed + histories, numRuns: 1, interruptAfterTimeLimit: 900_000, markInterruptAsFailure: true },
    );
    histories += 1;
    onProgress?.({ steps: done, histories });
  }
  return { steps: done, histories };
}

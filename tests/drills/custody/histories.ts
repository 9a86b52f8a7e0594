import fc from 'fast-check';
import type { Shop } from '../../support/shop.ts';
import { type Drilled, newTally } from '../telling.ts';
import type { ActKind } from './acts.ts';
import { sweep } from './checks.ts';
import type { Model, Real } from './commands.ts';
import { commandsOf } from './courses.ts';
import type { Facts } from './facts.ts';
import { freshBelief } from './state.ts';
import { clearAway, newWorld } from './world.ts';

/** The longest history. Each begins with two engines new in the shop. */
const LONGEST = 400;
/** Milliseconds a history and its shrinking may take. */
const SHRINK_AT_MOST = 600_000;
/** All invariants, and one moment of the past, are asked for every so many steps, and when the history ends. */
const SWEEP_EVERY = 40;

interface Told {
  readonly seed: number;
  readonly onStep: () => void;
  readonly onAct: Real['onAct'];
  readonly onFailure: (words: string) => void;
}

async function history(
  shop: Shop,
  commands: Iterable<fc.AsyncCommand<Model, Real>>,
  { seed, onStep, onAct, onFailure }: Told,
): Promise<void> {
  const world = await newWorld(shop);
  const seen: Facts[] = [];
  let at = 0;
  const onEach = async (step: number) => {
    at = step;
    onStep();
    if (step % SWEEP_EVERY === 0) await sweep(world, seen[(step * 7) % seen.length]);
  };
  const begin = () => {
    at = 0;
    const real: Real = { world, seen, last: undefined, onStep: onEach, onAct };
    return { model: { belief: freshBelief(), step: 0 }, real };
  };
  try {
    await fc.asyncModelRun(begin, commands);
    for (const share of [0.1, 0.5, 1]) await sweep(world, seen[Math.ceil(seen.length * share) - 1]);
  } catch (error) {
    const words = error instanceof Error ? error.message : String(error);
    onFailure(`seed ${seed}, after step ${at}: ${words}`);
    throw new Error(`seed ${seed}, after step ${at}: ${words}`, { cause: error });
  } finally {
    await clearAway(world);
  }
}

interface Drilling {
  readonly steps: number;
  readonly seed: number;
  readonly onProgress?: (done: Drilled) => void;
  /** Told at once, before the history is shrunk, which takes its time. */
  readonly onFailure?: (words: string) => void;
}

/**
 * Drives random histories until so many steps are done, as many at a time as there are shops. The n-th history is that of
 * the seed + n, whatever shop it falls to, so that one that fails is had again, alone, by its own seed.
 */
export async function drill(
  shops: readonly Shop[],
  { steps, seed, onProgress, onFailure }: Drilling,
): Promise<Drilled> {
  let done = 0;
  let begun = 0;
  let ended = 0;
  let failed = false;
  const tellFailure = (words: string) => {
    if (!failed) onFailure?.(words);
    failed = true;
  };
  const onStep = () => {
    done += 1;
  };
  const { acts, onAct } = newTally<ActKind>();
  const lane = async (shop: Shop) => {
    while (done < steps && !failed) {
      const own = seed + begun;
      begun += 1;
      await fc.assert(
        fc.asyncProperty(commandsOf(LONGEST), (commands) =>
          history(shop, commands, { seed: own, onStep, onAct, onFailure: tellFailure }),
        ),
        { seed: own, numRuns: 1, interruptAfterTimeLimit: SHRINK_AT_MOST, markInterruptAsFailure: true },
      );
      ended += 1;
      onProgress?.({ steps: done, histories: ended, acts });
    }
  };
  await Promise.all(shops.map(lane));
  return { steps: done, histories: ended, acts };
}

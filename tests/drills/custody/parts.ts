import { afterAll, beforeAll, expect, test } from 'vitest';
import { openShop, type Shop } from '../../support/shop.ts';
import { type Drilled, drill } from './histories.ts';

/** `npm run drill -- custody --steps N --seed S` sets these; the ordinary run does two thousand steps. */
const allSteps = Number(process.env.CROSSHATCH_DRILL_STEPS ?? 2000);
const firstSeed = Number(process.env.CROSSHATCH_DRILL_SEED ?? 20_261_126);
const aloud = process.env.CROSSHATCH_DRILL_STEPS !== undefined;

/** Shops side by side, each on a database of its own: a step waits for the database much of its time. */
const LANES = 4;
const TELL_EVERY = 2000;
const TALLY_EVERY = 10_000;

/** How often each kind of act was done, and how often it was refused. */
const actsInWords = ({ acts }: Drilled): string =>
  [...acts]
    .map(([kind, { done, refused }]) => `${kind} ${done} (refused ${refused})`)
    .toSorted()
    .join(', ');

/** A drill is two test files, since each has a process of its own and two cores do more than one; their seeds lie apart. */
const PARTS = 2;
const APART = 500_000;

export function drillPart(part: 0 | 1): void {
  const steps = Math.ceil(allSteps / PARTS);
  const seed = firstSeed + part * APART;
  let shops: readonly Shop[] = [];
  beforeAll(async () => {
    shops = await Promise.all(Array.from({ length: LANES }, () => openShop()));
  });
  afterAll(async () => {
    await Promise.all(shops.map((shop) => shop.close()));
  });

  test(`${steps} steps of random histories: one holder always, pieces conserved, nothing closed with anything open, the past as it was`, {
    timeout: aloud ? 24 * 3_600_000 : 300_000,
  }, async () => {
    const started = Date.now();
    const told = (so: { steps: number; histories: number }) => {
      const seconds = (Date.now() - started) / 1000;
      const rate = Math.round(so.steps / seconds);
      return `seed ${seed}: ${so.steps} steps in ${so.histories} histories, ${Math.round(seconds)} s, ${rate} steps/s`;
    };
    let said = 0;
    let tallied = 0;
    const done = await drill(shops, {
      steps,
      seed,
      onFailure: (words) => console.error(`${words}\nNow the history is shrunk.`),
      onProgress: (so) => {
        if (!aloud || so.steps < said + TELL_EVERY) return;
        said = so.steps;
        console.log(told(so));
        if (so.steps >= tallied + TALLY_EVERY) {
          tallied = so.steps;
          console.log(actsInWords(so));
        }
      },
    });
    if (aloud) console.log(`done, ${told(done)}\n${actsInWords(done)}`);
    expect(done.steps).toBeGreaterThanOrEqual(steps);
  });
}

import { afterAll, beforeAll, expect, test } from 'vitest';
import { openShop, type Shop } from '../../support/shop.ts';
import { drillAsked, teller } from '../telling.ts';
import { drill } from './histories.ts';

const asked = drillAsked({ steps: 2000, seed: 20_261_126 });

/** Shops side by side, each on a database of its own: a step waits for the database much of its time. */
const LANES = 4;
const TELL_EVERY = 2000;

/** A drill is two test files, since each has a process of its own and two cores do more than one; their seeds lie apart. */
const PARTS = 2;
const APART = 500_000;

export function drillPart(part: 0 | 1): void {
  const steps = Math.ceil(asked.steps / PARTS);
  const seed = asked.seed + part * APART;
  let shops: readonly Shop[] = [];
  beforeAll(async () => {
    shops = await Promise.all(Array.from({ length: LANES }, () => openShop()));
  });
  afterAll(async () => {
    await Promise.all(shops.map((shop) => shop.close()));
  });

  test(`${steps} steps of random histories: one holder always, pieces conserved, nothing closed with anything open, the past as it was`, {
    timeout: asked.timeout,
  }, async () => {
    const tell = teller({ seed, aloud: asked.aloud, every: TELL_EVERY });
    const done = await drill(shops, {
      steps,
      seed,
      onFailure: (words) => console.error(`${words}\nNow the history is shrunk.`),
      onProgress: tell.progress,
    });
    tell.done(done);
    expect(done.steps).toBeGreaterThanOrEqual(steps);
  });
}

import { afterAll, beforeAll, expect, test } from 'vitest';
import { openShop, type Shop } from '../../support/shop.ts';
import { drill } from './histories.ts';

/** `npm run drill -- custody --steps N --seed S` sets these; the ordinary run does two thousand steps. */
const steps = Number(process.env.CROSSHATCH_DRILL_STEPS ?? 2000);
const seed = Number(process.env.CROSSHATCH_DRILL_SEED ?? 20_261_126);
const aloud = process.env.CROSSHATCH_DRILL_STEPS !== undefined;

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

test(`${steps} steps of random histories: one holder always, pieces conserved, nothing closed with anything open, the past as it was`, {
  timeout: aloud ? 24 * 3_600_000 : 300_000,
}, async () => {
  const started = Date.now();
  let said = 0;
  const done = await drill(shop, {
    steps,
    seed,
    onProgress: (so) => {
      if (!aloud || so.steps < said + 5000) return;
      said = so.steps;
      console.log(`${so.steps} steps in ${so.histories} histories, ${Math.round((Date.now() - started) / 1000)} s`);
    },
  });
  if (aloud) console.log(`seed ${seed}: ${done.steps} steps in ${done.histories} histories`);
  expect(done.steps).toBeGreaterThanOrEqual(steps);
});

import { expect, test } from 'vitest';
import { drillAsked, teller } from '../telling.ts';
import { actKinds } from './acts.ts';
import { drill } from './histories.ts';

const { steps, seed, aloud, timeout } = drillAsked({ steps: 960, seed: 20_261_128 });

test(`${steps} acts of eight people at two processes: nothing promised twice or against a rule, nobody waits for what lies free, no piece or cent lost`, {
  timeout,
}, async () => {
  const tell = teller({ seed, aloud, every: 1000 });
  const done = await drill({ steps, seed, onProgress: tell.progress });
  tell.done(done);
  if (aloud) console.log(`deadlocks that PostgreSQL broke: ${done.deadlocks}`);
  expect(done.steps).toBeGreaterThanOrEqual(steps);
  // A history in which nothing could be done would prove nothing.
  if (steps >= 960) expect(actKinds.filter((kind) => (done.acts.get(kind)?.done ?? 0) === 0)).toEqual([]);
});

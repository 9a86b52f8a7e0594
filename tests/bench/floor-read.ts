import { findActor } from '#platform/identity/sessions.ts';
import { findFloor } from '../../server/features/floor/queries.ts';
import type { BenchShop } from './bench-shop.ts';
import { type Figure, medians } from './figures.ts';

const RUNS = 500;

/** Reading the floor over HTTP against the same statements through the driver: the session, then the floor. */
export async function floorRead({ sql, get, token, statements }: BenchShop, suffix = ''): Promise<readonly Figure[]> {
  await statements();
  await get('/floor');
  const count = await statements();
  const taken = await medians(RUNS, {
    http: () => get('/floor'),
    bare: async () => {
      await findActor(sql, token);
      await findFloor(sql);
    },
  });
  return [
    { name: `floor-read${suffix}.http`, value: taken.http, unit: 'ms' },
    { name: `floor-read${suffix}.bare`, value: taken.bare, unit: 'ms' },
    { name: `floor-read${suffix}.statements`, value: count, unit: '' },
    { name: `floor-read${suffix}.ratio`, value: taken.http / taken.bare, unit: '' },
  ];
}

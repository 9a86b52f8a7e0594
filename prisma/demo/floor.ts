import type { Stock } from './stock.ts';
import type { Engine } from './visit.ts';
import type { World } from './world.ts';

/** The floor as it is told: who is in, what stores have. */
export interface Floor {
  readonly world: World;
  readonly stock: Stock;
  readonly engines: ReadonlyMap<string, Engine>;
  /** `when(-1, '15:30')`. */
  readonly when: World['clock']['at'];
}

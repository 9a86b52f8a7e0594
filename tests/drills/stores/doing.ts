import type { Answer, Client } from '../../support/client.ts';
import type { Shop } from '../../support/shop.ts';
import type { Act } from './acts.ts';
import type { Stage } from './world.ts';

/** Somebody at work: at which server, and in which shop. */
export interface At {
  readonly stage: Stage;
  readonly shop: Shop;
  readonly as: Shop['as'];
}

/** One act that found something to be done at, with who sends it. */
export interface Doing extends At {
  readonly one: Act;
  readonly job: Stage['jobs'][number];
  readonly partId: string;
  readonly line: string;
  readonly lotId: string | undefined;
  readonly binId: string;
  readonly post: (url: string, body: object, by?: Client) => Promise<Answer>;
}

/** Undefined: there was nothing at which it could be done. */
export type Does = (doing: Doing) => Promise<Answer | undefined>;

export const reason = 'crowd';
export const euros = (minor: number) => ({ minor: String(minor), currency: 'EUR' });
export const of = <Item>(list: readonly Item[], pick: number): Item | undefined =>
  list[pick % Math.max(1, list.length)];

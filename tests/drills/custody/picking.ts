import type { StaffName } from '../../support/shop.ts';
import type { Draw } from './acts.ts';
import type { EngineBelief } from './state.ts';

/** What a draw is read against. */
export interface Of {
  readonly engine: EngineBelief;
  readonly draw: Draw;
  readonly base: { readonly who: StaffName; readonly engine: 0 | 1 };
}

export const at = <Item>(list: readonly Item[], pick: number): Item | undefined =>
  list[pick % Math.max(1, list.length)];

/** Prefers what fits the act; when nothing does, anything there is: it will be refused. */
export const fitting = <Item>(list: readonly Item[], fits: (item: Item) => boolean, pick: number): Item | undefined =>
  at(list.filter(fits), pick) ?? at(list, pick);

export const benchOf = (who: StaffName): StaffName => (who === 'writer' || who === 'clerk' ? 'technician' : who);

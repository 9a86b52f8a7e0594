import type { Rack } from '#contracts/searches.ts';
import type { RackWell } from '../../drawings/rack-facts.ts';

export const wellsOf = ({ places }: Rack): readonly RackWell[] =>
  places.map(({ code, name, side, filled, from, fromName }) => ({ code, name, side, filled, from, fromName }));

/** Pieces that are loose and lie in no place yet: some of a set counted off together. */
export const unplacedIn = ({ loose, places }: Rack): number =>
  Math.max(0, (loose ?? 0) - places.filter(({ filled }) => filled === true).length);

export const namesIn = ({ places }: Rack, codes: ReadonlySet<string>): string =>
  places
    .filter(({ code }) => codes.has(code))
    .map(({ name }) => name)
    .join(', ');

/** The set with this place in it, or without it when it was. */
export function toggled(codes: ReadonlySet<string>, code: string): ReadonlySet<string> {
  const after = new Set(codes);
  if (!after.delete(code)) after.add(code);
  return after;
}

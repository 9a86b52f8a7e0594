import type { Rack } from '#contracts/searches.ts';
import type { RackWell } from '../../drawings/rack-facts.ts';

type Place = Rack['places'][number];

/** A tray by its id; null: beside the engine; undefined: wherever the pieces lie. */
export type Within = string | null | undefined;

/** Its piece lies there. */
export const liesIn = ({ filled, tray }: Place, within: Within): boolean =>
  filled === true && (within === undefined || (tray?.id ?? null) === within);

/** The places as they are drawn; those whose pieces lie elsewhere say so. */
export const wellsOf = (
  { places }: Rack,
  within: Within,
  nameOf: (tray: string | null) => string,
): readonly RackWell[] =>
  places.map((place) => {
    const { code, name, side, filled, from, fromName, tray } = place;
    const elsewhere = filled === true && !liesIn(place, within) ? nameOf(tray?.name ?? null) : '';
    return { code, name, side, filled, from, fromName, elsewhere };
  });

/** Pieces that are loose and lie in no place yet: some of a set counted off together. */
export const unplacedIn = ({ loose, lying, places }: Rack, within?: Within): number => {
  const lie = within === undefined ? loose : lying.find(({ tray }) => (tray?.id ?? null) === within)?.count;
  return Math.max(0, (lie ?? 0) - places.filter((place) => liesIn(place, within)).length);
};

export const namesIn = ({ places }: Rack, codes: ReadonlySet<string>): string =>
  places
    .filter(({ code }) => codes.has(code))
    .map(({ name }) => name)
    .join(', ');

/** Of a set that lies in several trays: the places by the tray their pieces lie in. */
export function placesByTray({ lying, places }: Rack): readonly (readonly [tray: string | null, places: string])[] {
  if (lying.length < 2) return [];
  return lying.flatMap(({ tray }) => {
    const here = places.filter((place) => liesIn(place, tray?.id ?? null)).map(({ name }) => name);
    return here.length === 0 ? [] : [[tray?.name ?? null, here.join(', ')] as const];
  });
}

/** The set with this place in it, or without it when it was. */
export function toggled(codes: ReadonlySet<string>, code: string): ReadonlySet<string> {
  const after = new Set(codes);
  if (!after.delete(code)) after.add(code);
  return after;
}

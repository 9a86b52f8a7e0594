import type { Act, Draw } from './acts.ts';
import { at, fitting, type Of } from './picking.ts';
import { laidIn, placesWhere } from './rack.ts';
import { type LineBelief, looseOf, lyingIn } from './state.ts';

/** The first of some places from a drawn one on, round the rack: two who draw alike mean the same place. */
const turned = (places: readonly string[], pick: number): readonly string[] => {
  const first = places.length === 0 ? 0 : pick % places.length;
  return [...places.slice(first), ...places.slice(0, first)];
};

/** A place as somebody might name it who has not looked: perhaps one of a rack of six, perhaps filled. */
const anyPlace = (draw: number): string => `${1 + (draw % 7)}`;

/** Where pieces are laid that come off: nobody says, mostly; a new line has no rack to look at yet. */
export function placesLaid({ apt, foreign, otherFlag, pick, count }: Draw, line: LineBelief | undefined) {
  if (foreign) return [anyPlace(pick)];
  if (line === undefined || line.rack.length === 0 || otherFlag) return undefined;
  return apt ? turned(placesWhere(line.rack, false), pick).slice(0, Math.max(0, count - 1)) : [anyPlace(pick)];
}

/** Out of which places so many are taken: as many as have to be named, or more; none when all of them go. */
export function placesTaken(
  { apt, foreign, otherFlag, pick }: Draw,
  line: LineBelief,
  { count, from }: { readonly count: number; readonly from: string | undefined },
) {
  if (line.rack.length === 0) return foreign ? [anyPlace(pick)] : undefined;
  if (!apt) return otherFlag ? undefined : [anyPlace(pick)];
  const here =
    from === undefined ? placesWhere(line.rack, true) : laidIn(line.rack, from).map(({ at: place }) => place);
  const laid = turned(here, pick);
  const there = from === undefined ? looseOf(line) : lyingIn(line, from);
  const least = Math.max(0, count - (there - laid.length));
  if (least === 0 || count === there) return undefined;
  return laid.slice(0, otherFlag ? least : count);
}

/** Saying which places are filled or empty, and swapping the pieces of two. */
export function rackAct({ engine, draw, base }: Of): Act | undefined {
  const { kind, apt, flag, otherFlag, pick, second } = draw;
  const isHere = (each: LineBelief) => each.rack.length > 0 && each.opening === engine.opening?.key;
  const free = (each: LineBelief) => looseOf(each) - placesWhere(each.rack, true).length;
  const canFill = (each: LineBelief) => free(each) > 0 && placesWhere(each.rack, false).length > 0;
  const canEmpty = (each: LineBelief) => placesWhere(each.rack, true).length > 0;
  const fits =
    kind === 'swap' || !apt ? isHere : (each: LineBelief) => isHere(each) && (flag ? canFill : canEmpty)(each);
  const line = fitting(engine.lines.filter(isHere), fits, pick) ?? at(engine.lines, pick);
  if (line === undefined) return undefined;
  const [filled, emptied] = [false, true].map((laid) => turned(placesWhere(line.rack, laid), pick)) as [
    readonly string[],
    readonly string[],
  ];
  if (kind === 'swap') {
    const [one = '1', other = '2'] = turned(
      line.rack.map(({ from }) => from),
      pick,
    );
    return {
      ...base,
      kind,
      line: line.key,
      one: apt ? one : anyPlace(pick),
      other: apt ? other : anyPlace(second),
      reason: draw.foreign ? ' ' : 'Marked otherwise',
    };
  }
  if (kind !== 'fill') return undefined;
  if (!apt)
    return {
      ...base,
      kind,
      line: line.key,
      filled: flag ? [anyPlace(pick)] : [],
      emptied: otherFlag ? [anyPlace(second)] : [],
    };
  const some = 1 + (second % 3);
  return flag
    ? { ...base, kind, line: line.key, filled: filled.slice(0, Math.max(1, Math.min(some, free(line)))), emptied: [] }
    : {
        ...base,
        kind,
        line: line.key,
        filled: otherFlag ? filled.slice(0, 1) : [],
        emptied: emptied.slice(0, otherFlag ? 1 : some),
      };
}

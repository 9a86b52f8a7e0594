import { refuseUntouchable } from './line-rules.ts';
import { canBe, placesWhere } from './rack.ts';
import { type LineBelief, looseOf, lyingIn } from './state.ts';
import type { Turn } from './turn.ts';

const nothing = (): void => undefined;

interface Movement {
  /** Whether pieces come into the rack, not out of it. */
  readonly lays: boolean;
  readonly count: number;
  readonly places: readonly string[] | undefined;
}

/**
 * What a movement does to the rack of its line. A whole set that is loose lies in its places, the last that go leave
 * them empty; of some that go somebody says which, unless so many lie in no place.
 */
export function rackKept({ refusals }: Turn, line: LineBelief, { lays, count, places }: Movement): () => void {
  const { rack } = line;
  if (rack.length === 0) {
    if (places !== undefined) refusals.add(422);
    return nothing;
  }
  const named = places ?? [];
  const after = looseOf(line) + (lays ? count : -count);
  const all = after === (lays ? rack.length : 0);
  if (!canBe(rack, named, lays) || named.length > count) refusals.add(422);
  if (!lays && !all && placesWhere(rack, true).length - named.length > after) refusals.add(422);
  return () => {
    for (const piece of rack) if (all || named.includes(piece.at)) piece.laid = lays;
  };
}

/** Saying which places are filled and which empty, and swapping the pieces of two. */
export function rackRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'fill' && act.kind !== 'swap') return undefined;
  const line = engine.lines.find(({ key }) => key === act.line);
  if (line === undefined) return undefined;
  refuseUntouchable(
    turn,
    line,
    [...line.lies.keys()].filter((tray) => lyingIn(line, tray) > 0),
  );
  if (line.rack.length === 0) refusals.add(404);
  return act.kind === 'fill' ? fillRule(turn, line) : swapRule(turn, line);
}

function fillRule({ act, refusals }: Turn, line: LineBelief): (() => void) | undefined {
  if (act.kind !== 'fill') return undefined;
  const { filled, emptied } = act;
  const { rack } = line;
  if (filled.length + emptied.length === 0) refusals.add(422);
  if (!canBe(rack, filled, true) || !canBe(rack, emptied, false)) refusals.add(422);
  if (placesWhere(rack, true).length - emptied.length + filled.length > looseOf(line)) refusals.add(422);
  return () => {
    for (const piece of rack) {
      if (filled.includes(piece.at)) piece.laid = true;
      else if (emptied.includes(piece.at)) piece.laid = false;
    }
  };
}

function swapRule({ act, refusals }: Turn, line: LineBelief): (() => void) | undefined {
  if (act.kind !== 'swap') return undefined;
  const [one, other] = [act.one, act.other].map((place) => line.rack.find(({ at }) => at === place));
  if (act.reason.trim() === '') refusals.add(400);
  if (act.one === act.other) refusals.add(422);
  if (one === undefined || other === undefined) refusals.add(404);
  return () => {
    if (one === undefined || other === undefined) return;
    [one.at, other.at] = [other.at, one.at];
    line.checked = false;
  };
}

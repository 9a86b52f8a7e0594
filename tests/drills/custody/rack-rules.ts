import { refuseUntouchable } from './line-rules.ts';
import { canBe, laidIn, type RackedPiece } from './rack.ts';
import { type LineBelief, looseOf, lyingIn, workedOn } from './state.ts';
import type { Turn } from './turn.ts';

const nothing = (): void => undefined;

/** So many out of a tray, or from beside the engine. */
export type Taken = readonly (readonly [tray: string, count: number])[];

interface Movement {
  readonly count: number;
  readonly places: readonly string[] | undefined;
  /** Out of where; nothing for pieces that come off. */
  readonly taken: Taken;
  /** Into where; undefined: they lie nowhere any more. */
  readonly to: string | undefined;
}

/** Of the pieces in a tray, so many that lie in no place of the rack. */
const unplacedIn = (line: LineBelief, tray: string, more = 0): number =>
  lyingIn(line, tray) + more - laidIn(line.rack, tray).length;

/** Out of which trays named pieces come; undefined: that tells it not. */
export function takenByPlaces(
  { rack }: LineBelief,
  { count, places = [] }: { readonly count: number | undefined; readonly places: readonly string[] | undefined },
): Taken | undefined {
  const pieces = rack.filter(({ at, laid }) => laid && places.includes(at));
  if (places.length === 0 || pieces.length !== places.length) return undefined;
  if (count !== undefined && count !== places.length) return undefined;
  const trays = [...new Set(pieces.map(({ tray }) => tray))];
  return trays.map((tray) => [tray, pieces.filter((piece) => piece.tray === tray).length] as const);
}

/** What a movement does to the rack of its line, and why it is refused. */
export function rackKept(turn: Turn, line: LineBelief, movement: Movement): () => void {
  const { refusals } = turn;
  const { count, places, taken } = movement;
  if (line.rack.length === 0) {
    if (places !== undefined) refusals.add(422);
    return nothing;
  }
  const lays = taken.length === 0 && movement.to !== undefined;
  if (!canBe(line.rack, places ?? [], lays) || (places ?? []).length > count) refusals.add(422);
  return lays ? laidDown(line, movement) : takenOut(turn, line, movement);
}

/** A whole set lies in its places once the last of it is laid down, unless some of it lie in no place in another tray; else those that are named. */
function laidDown(line: LineBelief, { count, places: named = [], to = '' }: Movement): () => void {
  const together = [...line.lies.keys()].every((tray) => tray === to || unplacedIn(line, tray) <= 0);
  const all = count > 0 && looseOf(line) + count === line.rack.length && together;
  return () => {
    for (const piece of line.rack) {
      if (piece.laid || !(all || named.includes(piece.at))) continue;
      piece.laid = true;
      piece.tray = to;
    }
  };
}

/** The last that leave a tray leave its places empty; of some somebody says which, unless so many lie in no place. */
function takenOut({ refusals }: Turn, line: LineBelief, { places: named = [], taken, to }: Movement): () => void {
  const leaving: RackedPiece[] = [];
  const trays = taken.map(([tray]) => tray);
  if (line.rack.some(({ at, laid, tray }) => laid && named.includes(at) && !trays.includes(tray))) refusals.add(422);
  for (const [tray, some] of taken) {
    const laid = laidIn(line.rack, tray);
    const here = laid.filter(({ at }) => named.includes(at));
    const after = lyingIn(line, tray) - some;
    if (here.length > some || (after > 0 && laid.length - here.length > after)) refusals.add(422);
    leaving.push(...(after === 0 ? laid : here));
  }
  return () => {
    for (const piece of leaving) {
      piece.laid = to !== undefined;
      piece.tray = to ?? '';
    }
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
  const free = [...line.lies.keys()]
    .map((tray) => {
      const gone = laidIn(rack, tray).filter(({ at }) => emptied.includes(at)).length;
      return [tray, unplacedIn(line, tray, gone)] as const;
    })
    .filter(([, some]) => some > 0);
  const [[tray = '', most = 0] = [], ...others] = free;
  // Loose in no place in several trays: nobody says which of them these are.
  if (filled.length > 0 && (others.length > 0 || filled.length > most)) refusals.add(422);
  return () => {
    for (const piece of rack) {
      const fills = filled.includes(piece.at);
      if (!fills && !emptied.includes(piece.at)) continue;
      piece.laid = fills;
      piece.tray = fills ? tray : '';
    }
    workedOn(line, act.who);
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
    if (one.laid && other.laid) [one.tray, other.tray] = [other.tray, one.tray];
    line.checked = false;
    workedOn(line, act.who);
  };
}

import { beginSearch, endSearches } from './put-in-rules.ts';
import { layOut } from './rack.ts';
import { rackKept, takenByPlaces } from './rack-rules.ts';
import { blindTo, isOffered, type LineBelief, looseOf, lyingIn, missingOf, WITH_ENGINE, workedOn } from './state.ts';
import { isAway, refuseWhileAway, type Turn, traysOf } from './turn.ts';

/** Where an act on a line is refused whatever it counts: its opening is closed, a tray it touches offered or away. */
export function refuseUntouchable(turn: Turn, line: LineBelief | undefined, trays: readonly string[]): void {
  const { act, engine, refusals } = turn;
  if (line !== undefined && blindTo(engine, act.who).some(({ tray }) => lyingIn(line, tray) > 0)) refusals.add(409);
  if (line !== undefined && line.opening !== engine.opening?.key) refusals.add(409);
  if (engine.opening === null) refusals.add(409);
  if (trays.includes(WITH_ENGINE)) refuseWhileAway(turn);
  const keys = trays.filter((tray) => tray !== WITH_ENGINE);
  if (isOffered(engine, { engine: true, trays: keys })) refusals.add(409);
  if (traysOf(turn, keys).some(({ held }) => isAway(held))) refusals.add(409);
}

/** Undeclared: missing, and not said to be possibly inside. */
const undeclaredOf = (line: LineBelief): number => Math.max(0, missingOf(line) - line.inside);

const layIn = (line: LineBelief, tray: string, count: number): void => {
  line.lies.set(tray, (line.lies.get(tray) ?? 0) + count);
};

/** Short: an obligation, once. None of it inside any more: the search ends. Whole: all that the tally raised ends. */
function keepDuties(turn: Turn, line: LineBelief, act: string): void {
  const { engine, key } = turn;
  if (act === 'possibly inside') {
    beginSearch(turn, { of: line.key, tallyLine: line.key });
    return;
  }
  if (!['off', 'found', 'never there'].includes(act)) return;
  if (line.inside === 0) endSearches(turn, line.key, 'found');
  if (missingOf(line) === 0) engine.duties = engine.duties.filter(({ tallyLine }) => tallyLine !== line.key);
  const stands = engine.duties.some(({ tallyLine }) => tallyLine === line.key);
  if (act === 'off' && missingOf(line) > 0 && !stands) {
    engine.duties.push({ key: key('duty'), inside: true, tallyLine: line.key, miscount: null });
  }
}

/** More of it is off: what may be inside is never more than what is missing. */
function comeOff(line: LineBelief, count: number, tray: string): void {
  line.off += count;
  line.inside = Math.min(line.inside, missingOf(line));
  line.checked = false;
  layIn(line, tray, count);
}

export function countOffRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  if (act.kind !== 'count off') return undefined;
  const { count, tray } = act;
  const known = engine.lines.find((line) => line.key === act.line);
  if (count < 0) refusals.add(400);
  refuseWhileAway(turn);
  refuseUntouchable(turn, known, tray === null ? [] : [tray]);
  const line: LineBelief = known ?? {
    key: key('line'),
    opening: engine.opening?.key ?? '',
    layer: act.layer ? 'cover' : null,
    oneTime: act.oneTime,
    expected: count + act.short,
    off: 0,
    fitted: 0,
    renewed: 0,
    accounted: 0,
    inside: 0,
    lies: new Map(),
    rack: layOut(act.inOrder, count + act.short),
    workedBy: [],
    checked: false,
    offAt: 0,
  };
  if (line.off + count > line.expected && act.reason === '') refusals.add(422);
  const keepRack = rackKept(turn, line, { count, places: act.places, taken: [], to: tray ?? WITH_ENGINE });
  return () => {
    if (known === undefined) engine.lines.push(line);
    keepRack();
    comeOff(line, count, tray ?? WITH_ENGINE);
    engine.turns += 1;
    line.offAt = engine.turns;
    keepDuties(turn, line, 'off');
  };
}

export function lineRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (!('line' in act) || act.kind === 'count off' || act.kind === 'fill' || act.kind === 'swap') return undefined;
  const line = engine.lines.find(({ key }) => key === act.line);
  if (line === undefined) return undefined;
  if (act.kind === 'moved') return movedRule(turn, line);
  const { count } = act;
  refuseWhileAway(turn);
  if (count < 1) refusals.add(400);
  switch (act.kind) {
    case 'found': {
      refuseUntouchable(turn, line, []);
      if (count > missingOf(line)) refusals.add(422);
      const keepRack = rackKept(turn, line, { count, places: act.places, taken: [], to: WITH_ENGINE });
      return () => {
        keepRack();
        comeOff(line, count, WITH_ENGINE);
        keepDuties(turn, line, act.kind);
      };
    }
    case 'never there':
    case 'possibly inside':
      refuseUntouchable(turn, line, []);
      if (count > undeclaredOf(line)) refusals.add(422);
      return () => {
        if (act.kind === 'never there') line.expected -= count;
        else line.inside += count;
        line.checked = false;
        keepDuties(turn, line, act.kind);
      };
    case 'fitted':
    case 'renewed':
    case 'accounted':
      return backRule(turn, line);
  }
}

/** Out of which places so many pieces are taken, as far as what was said leaves no choice; else it is refused. */
function takenFrom(
  { refusals }: Turn,
  places: readonly (readonly [tray: string, there: number])[],
  { count, from }: { readonly count: number; readonly from: string | undefined },
): readonly (readonly [tray: string, count: number])[] {
  if (from !== undefined) {
    const there = places.find(([tray]) => tray === from)?.[1] ?? 0;
    if (count > there) refusals.add(422);
    return [[from, count]];
  }
  const all = places.reduce((sum, [, there]) => sum + there, 0);
  if (count > all) refusals.add(422);
  if (count === all) return places;
  const [only, ...others] = places;
  if (only === undefined || others.length > 0) refusals.add(422);
  return only === undefined ? [] : [[only[0], count]];
}

/** So many, or all that lie elsewhere, go into one tray, or beside the engine. */
function movedRule(turn: Turn, line: LineBelief): (() => void) | undefined {
  const { act, refusals } = turn;
  if (act.kind !== 'moved') return undefined;
  const elsewhere = [...line.lies].filter(([tray, count]) => tray !== act.tray && count > 0);
  const count = act.count ?? elsewhere.reduce((sum, [, there]) => sum + there, 0);
  if (act.count !== undefined && count < 1) refusals.add(400);
  if (elsewhere.length === 0) refusals.add(looseOf(line) > 0 ? 409 : 422);
  const byPlaces = act.from === undefined ? takenByPlaces(line, act) : undefined;
  const named = byPlaces?.some(([tray]) => tray === act.tray) ? undefined : byPlaces;
  const taken = named ?? takenFrom(turn, elsewhere, { count, from: act.from });
  refuseUntouchable(turn, line, [...taken.map(([tray]) => tray), act.tray]);
  const keepRack = rackKept(turn, line, { count, places: act.places, taken, to: act.tray });
  return () => {
    keepRack();
    for (const [tray, moved] of taken) {
      layIn(line, tray, -moved);
      layIn(line, act.tray, moved);
    }
  };
}

/** Pieces back on, renewed, or accounted for: at most what is loose, from where leaves no choice, each by its own rule. */
function backRule(turn: Turn, line: LineBelief): (() => void) | undefined {
  const { act, refusals } = turn;
  if (act.kind !== 'fitted' && act.kind !== 'renewed' && act.kind !== 'accounted') return undefined;
  const { kind, count, from, who } = act;
  const places = [...line.lies].filter(([, there]) => there > 0);
  const byPlaces = from === undefined ? takenByPlaces(line, act) : undefined;
  const taken = byPlaces ?? takenFrom(turn, places, { count, from });
  refuseUntouchable(
    turn,
    line,
    taken.map(([tray]) => tray),
  );
  if (count > looseOf(line)) refusals.add(422);
  if (kind === 'fitted' && line.oneTime) refusals.add(422);
  if (kind === 'accounted' && line.layer !== null) refusals.add(422);
  const keepRack = rackKept(turn, line, { count, places: act.places, taken, to: undefined });
  return () => {
    keepRack();
    line[kind] += count;
    for (const [tray, there] of taken) layIn(line, tray, -there);
    line.checked = false;
    workedOn(line, who);
  };
}

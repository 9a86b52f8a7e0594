import { isOffered, type LineBelief, looseOf, missingOf, openOffers, toCheck, WITH_ENGINE } from './state.ts';
import { isAway, type Turn, traysOf } from './turn.ts';

/** Opening, covering, counting off, finding, putting back, closing; and what is read or discharged meanwhile. */
export function tallyRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  switch (act.kind) {
    case 'open':
      if (isAway(engine.held) || engine.opening !== null) refusals.add(409);
      return () => {
        engine.opening = { key: key('opening'), covered: false };
      };
    case 'cover':
      if (engine.opening === null || engine.opening.covered === act.covered) refusals.add(409);
      return () => {
        if (engine.opening !== null) engine.opening.covered = act.covered;
      };
    case 'check':
      return checkRule(turn);
    case 'close':
      return closeRule(turn);
    case 'count off':
      return countOffRule(turn);
    case 'discharge':
      if (act.who !== 'lead') refusals.add(403);
      if (!engine.duties.some((duty) => duty.key === act.duty)) refusals.add(409);
      return () => {
        engine.duties = engine.duties.filter((duty) => duty.key !== act.duty);
      };
    case 'read': {
      const { round } = act;
      if (engine.rounds.includes(round)) refusals.add(409).add(422);
      return () => {
        engine.rounds.push(round);
        engine.duties.push({ key: key('duty'), inside: true, tallyLine: null, miscount: null });
      };
    }
    default:
      return lineRule(turn);
  }
}

/** Where an act on a line is refused whatever it counts: its opening is closed, a tray it touches offered or away. */
function refuseUntouchable(turn: Turn, line: LineBelief | undefined, trays: readonly string[]): void {
  const { engine, refusals } = turn;
  if (line !== undefined && line.opening !== engine.opening?.key) refusals.add(409);
  if (engine.opening === null) refusals.add(409);
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
function keepDuties({ engine, key }: Turn, line: LineBelief, act: string): void {
  const raise = (search: boolean) =>
    engine.duties.push({
      key: key('duty'),
      inside: true,
      tallyLine: line.key,
      miscount: null,
      ...(search ? { search: true } : {}),
    });
  if (act === 'possibly inside') {
    raise(true);
    return;
  }
  if (!['off', 'found', 'never there'].includes(act)) return;
  const ends = (duty: (typeof engine.duties)[number]): boolean =>
    duty.tallyLine === line.key && (missingOf(line) === 0 || (duty.search === true && line.inside === 0));
  engine.duties = engine.duties.filter((duty) => !ends(duty));
  const stands = engine.duties.some(({ tallyLine }) => tallyLine === line.key);
  if (act === 'off' && missingOf(line) > 0 && !stands) raise(false);
}

/** More of it is off: what may be inside is never more than what is missing. */
function comeOff(line: LineBelief, count: number, tray: string): void {
  line.off += count;
  line.inside = Math.min(line.inside, missingOf(line));
  line.checked = false;
  layIn(line, tray, count);
}

function countOffRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  if (act.kind !== 'count off') return undefined;
  const { count, tray } = act;
  const known = engine.lines.find((line) => line.key === act.line);
  if (count < 0) refusals.add(400);
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
    backBy: [],
    checked: false,
    offAt: 0,
  };
  if (line.off + count > line.expected && act.reason === '') refusals.add(422);
  return () => {
    if (known === undefined) engine.lines.push(line);
    comeOff(line, count, tray ?? WITH_ENGINE);
    engine.turns += 1;
    line.offAt = engine.turns;
    keepDuties(turn, line, 'off');
  };
}

function lineRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (!('line' in act) || act.kind === 'count off') return undefined;
  const line = engine.lines.find(({ key }) => key === act.line);
  if (line === undefined) return undefined;
  if (act.kind === 'moved') return movedRule(turn, line);
  const { count } = act;
  if (count < 1) refusals.add(400);
  switch (act.kind) {
    case 'found':
      refuseUntouchable(turn, line, []);
      if (count > missingOf(line)) refusals.add(422);
      return () => {
        comeOff(line, count, WITH_ENGINE);
        keepDuties(turn, line, act.kind);
      };
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
      return backRule(turn, { line, count, act: act.kind });
  }
}

/** All that lie elsewhere go into one tray. */
function movedRule(turn: Turn, line: LineBelief): (() => void) | undefined {
  const { act, refusals } = turn;
  if (act.kind !== 'moved') return undefined;
  const elsewhere = [...line.lies].filter(([tray, count]) => tray !== act.tray && count > 0);
  refuseUntouchable(turn, line, [...elsewhere.map(([tray]) => tray), act.tray]);
  if (elsewhere.length === 0) refusals.add(looseOf(line) > 0 ? 409 : 422);
  return () => {
    for (const [tray, count] of elsewhere) {
      layIn(line, tray, -count);
      layIn(line, act.tray, count);
    }
  };
}

/** Pieces back on, renewed, or accounted for: at most what is loose, from where leaves no choice, each by its own rule. */
function backRule(
  turn: Turn,
  { line, count, act }: { line: LineBelief; count: number; act: 'fitted' | 'renewed' | 'accounted' },
): () => void {
  const { refusals } = turn;
  const places = [...line.lies].filter(([, there]) => there > 0);
  refuseUntouchable(
    turn,
    line,
    places.map(([tray]) => tray),
  );
  if (count > looseOf(line)) refusals.add(422);
  if (count < looseOf(line) && places.length > 1) refusals.add(422);
  if (act === 'fitted' && line.oneTime) refusals.add(422);
  if (act === 'accounted' && line.layer !== null) refusals.add(422);
  return () => {
    const all = count === looseOf(line);
    line[act] += count;
    for (const [tray, there] of places) layIn(line, tray, all ? -there : -count);
    line.checked = false;
    if (!line.backBy.includes(turn.act.who)) line.backBy.push(turn.act.who);
  };
}

/** The closing check: the last removed first, each once it is settled, by another than who put it back. */
function checkRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'check') return undefined;
  if (engine.opening === null) refusals.add(409);
  const order = toCheck(engine);
  const left = order.filter(({ checked }) => !checked);
  const asked = act.lines.map((key) => order.find((line) => line.key === key));
  for (const [index, line] of asked.entries()) {
    if (line === undefined) refusals.add(404);
    else if (line.checked) refusals.add(409);
    else {
      if (left[index] !== line) refusals.add(422);
      if (looseOf(line) > 0 || missingOf(line) > 0 || line.backBy.length === 0) refusals.add(422);
      if (line.backBy.includes(act.who)) refusals.add(403);
    }
  }
  return () => {
    for (const line of asked) if (line !== undefined) line.checked = true;
  };
}

function closeRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'close') return undefined;
  const { opening } = engine;
  if (opening === null || opening.key !== act.opening) refusals.add(409);
  const lines = engine.lines.filter((line) => line.opening === opening?.key);
  const layerOff = lines.some((line) => line.layer !== null && looseOf(line) > 0);
  const unaccounted = lines.some((line) => looseOf(line) > 0 || missingOf(line) > 0);
  const mayBeInside = lines.some(({ inside }) => inside > 0);
  const unchecked = toCheck(engine).some(({ checked }) => !checked);
  const reasons = layerOff || unaccounted || unchecked || engine.duties.some(({ inside }) => inside);
  if (reasons) {
    if (!act.override) refusals.add(409);
    else if (act.who !== 'lead') refusals.add(403);
    if (layerOff || mayBeInside || openOffers(engine).length > 0) refusals.add(409);
  }
  return () => {
    engine.opening = null;
    engine.closed.push(act.opening);
  };
}

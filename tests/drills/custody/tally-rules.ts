import { isOffered, type LineBelief, looseOf, missingOf, openOffers } from './state.ts';
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

/** Where an act on a line is refused whatever it counts: its opening is closed, its tray offered, away or another's. */
function refuseUntouchable(turn: Turn, line: LineBelief | undefined, tray: string | null): void {
  const { engine, refusals } = turn;
  if (line !== undefined && line.opening !== engine.opening?.key) refusals.add(409);
  if (engine.opening === null) refusals.add(409);
  const keys = [...(line?.at == null ? [] : [line.at]), ...(tray === null ? [] : [tray])];
  const trays = traysOf(turn, keys);
  if (isOffered(engine, { engine: true, trays: keys })) refusals.add(409);
  if (trays.some(({ held }) => isAway(held))) refusals.add(409);
}

/** The others of this line lie somewhere else than where these are to go. */
const staysElsewhere = (line: LineBelief, tray: string | null): boolean =>
  looseOf(line) > 0 && tray !== null && line.at !== tray;

/** Short: an obligation, once. Whole: what the tally raised about it ends. */
function keepDuties({ engine, key }: Turn, line: LineBelief, act: string): void {
  const own = engine.duties.filter(({ tallyLine }) => tallyLine === line.key);
  const raise = act === 'possibly inside' || (act === 'off' && missingOf(line) > 0 && own.length === 0);
  if (raise) {
    engine.duties.push({ key: key('duty'), inside: true, tallyLine: line.key, miscount: null });
    return;
  }
  if (missingOf(line) === 0 && ['off', 'found', 'never there'].includes(act)) {
    engine.duties = engine.duties.filter(({ tallyLine }) => tallyLine !== line.key);
  }
}

function countOffRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  if (act.kind !== 'count off') return undefined;
  const { count, tray } = act;
  const known = engine.lines.find((line) => line.key === act.line);
  if (count < 0) refusals.add(400);
  refuseUntouchable(turn, known, tray);
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
    suspected: 0,
    at: null,
  };
  if (line.off + count > line.expected && act.reason === '') refusals.add(422);
  if (staysElsewhere(line, tray)) refusals.add(422);
  return () => {
    if (known === undefined) engine.lines.push(line);
    line.off += count;
    line.at = tray ?? line.at;
    keepDuties(turn, line, 'off');
  };
}

function lineRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (!('line' in act) || act.kind === 'count off') return undefined;
  const line = engine.lines.find(({ key }) => key === act.line);
  if (line === undefined) return undefined;
  const tray = act.kind === 'moved' ? act.tray : null;
  refuseUntouchable(turn, line, tray);
  const count = act.kind === 'moved' ? looseOf(line) : act.count;
  if (act.kind !== 'moved' && count < 1) refusals.add(400);
  switch (act.kind) {
    case 'moved':
      if (line.at === act.tray) refusals.add(409);
      if (count < 1) refusals.add(422);
      return () => {
        line.at = act.tray;
      };
    case 'found':
    case 'never there':
      if (count > missingOf(line)) refusals.add(422);
      return () => {
        if (act.kind === 'found') line.off += count;
        else line.expected -= count;
        keepDuties(turn, line, act.kind);
      };
    case 'possibly inside':
      if (line.suspected + count > missingOf(line)) refusals.add(422);
      return () => {
        line.suspected += count;
        keepDuties(turn, line, act.kind);
      };
    case 'fitted':
    case 'renewed':
    case 'accounted':
      return backRule(turn, { line, count, act: act.kind });
  }
}

/** Pieces back on, renewed, or accounted for: at most what is loose, and each by its own rule. */
function backRule(
  { refusals }: Turn,
  { line, count, act }: { line: LineBelief; count: number; act: 'fitted' | 'renewed' | 'accounted' },
): () => void {
  if (count > looseOf(line)) refusals.add(422);
  if (act === 'fitted' && line.oneTime) refusals.add(422);
  if (act === 'accounted' && line.layer !== null) refusals.add(422);
  return () => {
    line[act] += count;
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
  const reasons = layerOff || unaccounted || engine.duties.some(({ inside }) => inside);
  if (reasons) {
    if (!act.override) refusals.add(409);
    else if (act.who !== 'lead') refusals.add(403);
    if (layerOff || openOffers(engine).length > 0) refusals.add(409);
  }
  return () => {
    engine.opening = null;
    engine.closed.push(act.opening);
  };
}

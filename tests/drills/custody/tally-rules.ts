import { countOffRule, lineRule } from './line-rules.ts';
import { isOffered, looseOf, missingOf, openOffers, toCheck } from './state.ts';
import { isAway, refuseAtTheEngine, refuseWhileAway, type Turn } from './turn.ts';

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
      refuseWhileAway(turn);
      if (!act.covered && isOffered(engine, { engine: true, trays: [] })) refusals.add(409);
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

/** The closing check: the last removed first, each once it is settled, by another than who worked on it. */
function checkRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'check') return undefined;
  refuseAtTheEngine(turn);
  if (engine.opening === null) refusals.add(409);
  const order = toCheck(engine);
  const left = order.filter(({ of }) => !of.checked);
  const asked = act.lines.map((key) => order.find(({ of }) => of.key === key));
  for (const [index, line] of asked.entries()) {
    if (line === undefined) refusals.add(404);
    else if (line.of.checked) refusals.add(409);
    else {
      if (left[index] !== line) refusals.add(422);
      if (line.open > 0 || line.doneBy.length === 0) refusals.add(422);
      if (line.doneBy.includes(act.who)) refusals.add(403);
    }
  }
  return () => {
    for (const line of asked) if (line !== undefined) line.of.checked = true;
  };
}

function closeRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'close') return undefined;
  refuseAtTheEngine(turn);
  const { opening } = engine;
  if (opening === null || opening.key !== act.opening) refusals.add(409);
  const lines = engine.lines.filter((line) => line.opening === opening?.key);
  const layerOff = lines.some((line) => line.layer !== null && looseOf(line) > 0);
  const unaccounted = lines.some((line) => looseOf(line) > 0 || missingOf(line) > 0);
  const things = engine.things.filter((thing) => thing.opening === opening?.key);
  const leftIn = things.some(({ count, cameOut }) => cameOut < count) || lines.some(({ inside }) => inside > 0);
  const unchecked = toCheck(engine).some(({ of }) => !of.checked);
  const reasons =
    layerOff ||
    unaccounted ||
    leftIn ||
    unchecked ||
    engine.duties.some(({ inside }) => inside) ||
    engine.run?.left === true;
  if (reasons) {
    if (!act.override) refusals.add(409);
    else if (act.who !== 'lead') refusals.add(403);
    if (layerOff || leftIn || openOffers(engine).length > 0) refusals.add(409);
  }
  return () => {
    engine.opening = null;
    engine.closed.push(act.opening);
  };
}

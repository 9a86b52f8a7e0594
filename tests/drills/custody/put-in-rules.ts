import { expectedSteps, searchSteps, stepsApartFromEngine } from '#domain/tally/search-steps.ts';
import { blindTo, looseOf, missingOf, type SearchBelief, type ThingBelief } from './state.ts';
import { refuseAtTheEngine, refuseWhileAway, refuseWhileOffered, type Turn } from './turn.ts';

/** Opens the search for what may be inside, and the obligation that goes with it. */
export function beginSearch({ engine, key }: Turn, { of, tallyLine }: { of: string; tallyLine: string | null }): void {
  const duty = key('duty');
  engine.duties.push({ key: duty, inside: true, tallyLine, miscount: null });
  engine.searches.push({ key: key('search'), of, duty, ticks: [], ended: null });
}

/** Ends the searches about a line or a thing of which none may be inside any more; their obligations end with them. */
export function endSearches({ engine }: Turn, of: string, outcome: 'found' | 'not inside'): void {
  const open = engine.searches.filter((search) => search.of === of && search.ended === null);
  for (const search of open) search.ended = outcome;
  engine.duties = engine.duties.filter(({ key }) => open.every(({ duty }) => duty !== key));
}

/** Rags and plugs in and out, and the searches for what may be inside. */
export function putInRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  switch (act.kind) {
    case 'put in':
      refuseAtTheEngine(turn);
      if (engine.opening?.key !== act.opening) refusals.add(409);
      if (act.count < 1) refusals.add(400);
      return () => {
        engine.turns += 1;
        const { opening, count } = act;
        const fresh = { cameOut: 0, notFound: 0, actedBy: [], checked: false, offAt: engine.turns };
        engine.things.push({ key: key('thing'), opening, count, ...fresh });
      };
    case 'taken out':
    case 'not found':
    case 'turned up':
      return thingRule(turn);
    case 'look':
      return lookRule(turn);
    case 'decide':
      return decideRule(turn);
    default:
      return undefined;
  }
}

function settle(turn: Turn, thing: ThingBelief, outcome: 'found' | 'not inside', count: number): void {
  thing.cameOut += count;
  thing.notFound -= count;
  if (thing.notFound === 0) endSearches(turn, thing.key, outcome);
}

function touch(turn: Turn, thing: ThingBelief): void {
  thing.checked = false;
  if (!thing.actedBy.includes(turn.act.who)) thing.actedBy.push(turn.act.who);
}

function thingRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (!('thing' in act)) return undefined;
  const { kind, count } = act;
  const thing = engine.things.find(({ key }) => key === act.thing);
  if (thing === undefined) return undefined;
  refuseAtTheEngine(turn);
  if (count < 1) refusals.add(400);
  if (thing.opening !== engine.opening?.key) refusals.add(409);
  const most = kind === 'turned up' ? thing.notFound : thing.count - thing.cameOut - thing.notFound;
  if (count > most) refusals.add(422);
  return () => {
    touch(turn, thing);
    if (kind === 'turned up') settle(turn, thing, 'found', count);
    else if (kind === 'taken out') thing.cameOut += count;
    else {
      thing.notFound += count;
      beginSearch(turn, { of: thing.key, tallyLine: null });
    }
  };
}

function lookRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'look') return undefined;
  const search = engine.searches.find(({ key }) => key === act.search);
  if (search === undefined) return undefined;
  if (!stepsApartFromEngine.has(act.step)) refuseWhileAway(turn);
  refuseWhileOffered(turn);
  if (search.ended !== null || search.ticks.includes(act.step)) refusals.add(409);
  if (searchSteps.every(({ code }) => code !== act.step)) refusals.add(422);
  return () => {
    search.ticks.push(act.step);
  };
}

/** A lead decides that it is not inside: all of it, once every step but the last resort is ticked. */
function decideRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'decide') return undefined;
  const search = engine.searches.find(({ key }) => key === act.search);
  if (search === undefined) return undefined;
  if (act.who !== 'lead') refusals.add(403);
  refuseAtTheEngine(turn);
  if (search.ended !== null) refusals.add(409);
  if (expectedSteps.some(({ code }) => !search.ticks.includes(code))) refusals.add(422);
  return decidedThing(turn, search) ?? decidedLine(turn, search);
}

function decidedThing(turn: Turn, search: SearchBelief): (() => void) | undefined {
  const thing = turn.engine.things.find(({ key }) => key === search.of);
  if (thing === undefined) return undefined;
  return () => {
    touch(turn, thing);
    settle(turn, thing, 'not inside', thing.notFound);
  };
}

function decidedLine(turn: Turn, search: SearchBelief): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  const line = engine.lines.find(({ key }) => key === search.of);
  if (line === undefined) return undefined;
  if (blindTo(engine, act.who).some(({ tray }) => (line.lies.get(tray) ?? 0) > 0)) refusals.add(409);
  return () => {
    line.expected -= line.inside;
    line.inside = 0;
    line.checked = false;
    endSearches(turn, line.key, 'not inside');
    if (missingOf(line) === 0) engine.duties = engine.duties.filter(({ tallyLine }) => tallyLine !== line.key);
    if (looseOf(line) < 0) throw new Error(`${line.key}: more back than off`);
  };
}

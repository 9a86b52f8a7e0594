import { expectedSteps } from '#domain/tally/search-steps.ts';
import type { ActKind, Draw } from './acts.ts';
import { placesWhere } from './rack.ts';
import { runFirst } from './runs.ts';
import { type Belief, type EngineBelief, looseOf, missingOf, openOffers, toCheck } from './state.ts';
import { isAway } from './turn.ts';

/** What is done at the engine itself, so that it comes back from a vendor first. */
const atTheEngine: ReadonlySet<ActKind> = new Set<ActKind>([
  ...(['make tray', 'open', 'cover', 'count off', 'found', 'never there', 'possibly inside', 'fitted'] as const),
  ...(['renewed', 'accounted', 'put in', 'taken out', 'not found', 'turned up', 'decide', 'check', 'close'] as const),
  ...(['begin run', 'resume run'] as const),
]);

/** What is refused while a handover is open, of the engine or of a tray it touches. */
const waitsForHandover: ReadonlySet<ActKind> = new Set<ActKind>([
  ...(['offer', 'take', 'leave', 'send out', 'count off', 'found', 'never there', 'possibly inside'] as const),
  ...(['moved', 'fitted', 'renewed', 'accounted', 'fill', 'swap', 'check', 'decide', 'close'] as const),
  ...(['put in', 'taken out', 'not found', 'turned up', 'look', 'begin run', 'resume run'] as const),
]);

/**
 * Mostly somebody who can't do a thing yet does first what it waits for: counts and accepts what is offered, takes what
 * nobody holds, counts off what could be put back. So that each kind of act is often done, not often refused only.
 */
export function firstThingsFirst(belief: Belief, draw: Draw): Draw {
  if (!draw.apt || draw.second % 8 === 0) return draw;
  const engine = belief.engines[draw.engine];
  let { kind } = draw;
  for (let turn = 0; turn < 3; turn += 1) kind = firstOf(engine, kind);
  return { ...draw, kind };
}

function firstOf(engine: EngineBelief, kind: ActKind): ActKind {
  const offers = openOffers(engine);
  if (offers.length > 0 && waitsForHandover.has(kind)) return 'accept';
  return (
    custodyFirst(engine, kind) ??
    searchFirst(engine, kind) ??
    runFirst(engine, kind) ??
    tallyFirst(engine, kind) ??
    kind
  );
}

function custodyFirst(engine: EngineBelief, kind: ActKind): ActKind | undefined {
  const offers = openOffers(engine);
  const held = [engine, ...engine.trays].map((subject) => subject.held.holder);
  const uncounted = offers.some(({ trays }) => trays.some(({ attempts }) => attempts === 0));
  switch (kind) {
    case 'accept':
      if (offers.length === 0) return 'offer';
      return uncounted ? 'count' : undefined;
    case 'count':
      if (offers.length === 0) return 'offer';
      return uncounted ? undefined : 'accept';
    case 'decline':
    case 'withdraw':
      return offers.length === 0 ? 'offer' : undefined;
    case 'offer':
    case 'leave':
      return held.some((holder) => 'person' in holder) ? undefined : 'take';
    case 'take':
      return held.some((holder) => 'bay' in holder) ? undefined : 'leave';
    case 'back':
      return engine.away.some(({ back }) => !back) ? undefined : 'send out';
    default:
      return isAway(engine.held) && atTheEngine.has(kind) ? 'back' : undefined;
  }
}

function searchFirst(engine: EngineBelief, kind: ActKind): ActKind | undefined {
  const { searches, things } = engine;
  const here = things.filter(({ opening }) => opening === engine.opening?.key);
  switch (kind) {
    case 'taken out':
    case 'not found':
      return here.some(({ count, cameOut, notFound }) => count > cameOut + notFound) ? undefined : 'put in';
    case 'turned up':
      return here.some(({ notFound }) => notFound > 0) ? undefined : 'not found';
    case 'look':
      return searches.some(({ ended }) => ended === null) ? undefined : 'possibly inside';
    case 'decide':
      return searches.some(
        ({ ended, ticks }) => ended === null && expectedSteps.every(({ code }) => ticks.includes(code)),
      )
        ? undefined
        : 'look';
    case 'put in':
      return engine.opening === null ? 'open' : undefined;
    default:
      return undefined;
  }
}

function tallyFirst(engine: EngineBelief, kind: ActKind): ActKind | undefined {
  const here = engine.lines.filter(({ opening }) => opening === engine.opening?.key);
  const needs = (fits: boolean, first: ActKind): ActKind | undefined => (fits ? undefined : first);
  switch (kind) {
    case 'open':
      return engine.opening === null ? undefined : 'count off';
    case 'fitted':
    case 'renewed':
    case 'accounted':
      return needs(
        here.some((line) => looseOf(line) > 0),
        'count off',
      );
    case 'moved':
      return engine.trays.length === 0 ? 'make tray' : undefined;
    case 'found':
    case 'never there':
    case 'possibly inside':
      return needs(
        here.some((line) => missingOf(line) > line.inside),
        'count off',
      );
    case 'fill':
      return needs(
        here.some(({ rack }) => rack.length > 0),
        'count off',
      );
    case 'swap':
      return needs(
        here.some(({ rack }) => placesWhere(rack, true).length > 0),
        'count off',
      );
    case 'close':
      return beforeClosing(engine);
    case 'check': {
      const next = toCheck(engine).find(({ of }) => !of.checked);
      return needs(next === undefined || (next.open === 0 && next.doneBy.length > 0), 'renewed');
    }
    default:
      return undefined;
  }
}

/** What stands against closing, and is done about next: loose, missing, left in, possibly inside, owed, unchecked. */
function beforeClosing(engine: EngineBelief): ActKind | undefined {
  const here = <Of extends { readonly opening: string }>(all: readonly Of[]) =>
    all.filter(({ opening }) => opening === engine.opening?.key);
  if (engine.opening === null) return 'open';
  const [lines, things] = [here(engine.lines), here(engine.things)];
  if (lines.some((line) => looseOf(line) > 0)) return 'renewed';
  if (lines.some((line) => missingOf(line) > line.inside)) return 'never there';
  if (engine.searches.some(({ ended }) => ended === null)) return 'decide';
  if (things.some(({ count, cameOut }) => cameOut < count)) return 'taken out';
  if (engine.duties.some(({ inside }) => inside)) return 'discharge';
  if (engine.run?.left === true) return 'resume run';
  return toCheck(engine).some(({ of }) => !of.checked) ? 'check' : undefined;
}

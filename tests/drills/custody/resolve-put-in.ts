import { expectedSteps, searchSteps } from '#domain/tally/search-steps.ts';
import type { Act } from './acts.ts';
import { at, benchOf, fitting, type Of } from './picking.ts';
import type { SearchBelief } from './state.ts';

/** Rags and plugs in and out, and the steps of a search: the next one that nobody has ticked, mostly. */
export function putInAct({ engine, draw, base }: Of): Act | undefined {
  const { kind, apt, pick, second, count } = draw;
  const own = { ...base, who: apt ? benchOf(base.who) : base.who };
  switch (kind) {
    case 'put in': {
      const opening = engine.opening?.key ?? engine.closed.at(-1);
      return opening === undefined ? undefined : { ...own, kind, opening, count };
    }
    case 'taken out':
    case 'not found': {
      const thing = fitting(engine.things, (each) => each.count > each.cameOut + each.notFound, pick);
      if (thing === undefined) return undefined;
      const stillIn = thing.count - thing.cameOut - thing.notFound;
      return { ...own, kind, thing: thing.key, count: apt ? Math.max(1, draw.flag ? stillIn : 1) : count };
    }
    case 'turned up': {
      const thing = fitting(engine.things, ({ notFound }) => notFound > 0, pick);
      return thing === undefined
        ? undefined
        : { ...own, kind, thing: thing.key, count: apt ? Math.max(1, thing.notFound) : count };
    }
    case 'look': {
      const search = apt ? engine.searches.find(goesOn) : at(engine.searches, pick);
      if (search === undefined) return undefined;
      const next = searchSteps.find(({ code }) => !search.ticks.includes(code))?.code;
      const step = apt ? (next ?? 'split') : draw.foreign ? 'ask the cat' : at(searchSteps, second)?.code;
      return step === undefined ? undefined : { ...own, kind, search: search.key, step };
    }
    case 'decide': {
      const search = fitting(engine.searches, (each) => goesOn(each) && isSearched(each), pick);
      return search === undefined ? undefined : { ...base, who: apt ? 'lead' : base.who, kind, search: search.key };
    }
    default:
      return undefined;
  }
}

const goesOn = ({ ended }: SearchBelief): boolean => ended === null;
const isSearched = ({ ticks }: SearchBelief): boolean => expectedSteps.every(({ code }) => ticks.includes(code));

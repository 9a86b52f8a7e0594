import type { Act, ActKind } from './acts.ts';
import { benchOf, type Of } from './picking.ts';
import type { EngineBelief } from './state.ts';
import { refuseAtTheEngine, type Turn } from './turn.ts';

/** A procedure begun, left in the middle and gone on with: at the engine, but for the leaving, which is done anywhere. */
export function runRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  switch (act.kind) {
    case 'begin run':
      refuseAtTheEngine(turn);
      if (engine.run !== null) refusals.add(409);
      return () => {
        engine.run = { key: key('run'), left: false };
      };
    case 'leave run':
      if (engine.run?.left !== false) refusals.add(409);
      return () => {
        if (engine.run !== null) engine.run.left = true;
      };
    case 'resume run':
      refuseAtTheEngine(turn);
      if (engine.run?.left !== true) refusals.add(409);
      return () => {
        if (engine.run !== null) engine.run.left = false;
      };
    default:
      return undefined;
  }
}

/** Undefined where nothing runs yet that could be left or gone on with. */
export function runAct({ engine, draw, base }: Of): Act | undefined {
  const { kind, apt } = draw;
  const own = { ...base, who: apt ? benchOf(base.who) : base.who };
  if (kind === 'begin run') return { ...own, kind };
  if (kind !== 'leave run' && kind !== 'resume run') return undefined;
  return engine.run === null ? undefined : { ...own, kind, run: engine.run.key };
}

/** What comes before such an act. */
export function runFirst({ run }: EngineBelief, kind: ActKind): ActKind | undefined {
  if (kind === 'begin run') return run === null ? undefined : 'leave run';
  if (kind !== 'leave run' && kind !== 'resume run') return undefined;
  if (run === null) return 'begin run';
  return run.left === (kind === 'resume run') ? undefined : kind === 'resume run' ? 'leave run' : 'resume run';
}

import type { Act, ActKind, Draw } from './acts.ts';
import { at, benchOf, fitting, type Of } from './picking.ts';
import { type LineBelief, looseOf, missingOf, toCheck, WITH_ENGINE } from './state.ts';

/** Whoever means to do one of these to a closed engine opens it first. */
const needsOpening: ReadonlySet<ActKind> = new Set(['count off', 'found', 'fitted', 'renewed', 'check', 'moved']);

export function tallyAct({
  engine,
  draw,
  base,
  foreign,
}: Of & { readonly foreign: readonly string[] }): Act | undefined {
  const { kind } = draw;
  const who = draw.apt ? benchOf(base.who) : base.who;
  const own = { ...base, who };
  const opening = engine.opening?.key ?? engine.closed.at(-1);
  const tray = draw.foreign ? foreign[0] : at(engine.trays, draw.second)?.key;
  if (draw.apt && engine.opening === null && needsOpening.has(kind)) return { ...own, kind: 'open' };
  switch (kind) {
    case 'open':
      return { ...own, kind };
    case 'discharge': {
      const duty = at(engine.duties, draw.pick);
      return duty === undefined ? undefined : { ...base, who: draw.apt ? 'lead' : base.who, kind, duty: duty.key };
    }
    case 'read':
      return { ...own, kind, round: at(['as received', 'after work', 'as built'] as const, draw.pick) ?? 'as built' };
    case 'cover':
      return opening === undefined ? undefined : { ...own, kind, covered: draw.flag };
    case 'check': {
      // All that stand unticked, or the first few of them, or one out of its turn.
      const left = toCheck(engine).filter(({ of }) => !of.checked);
      const lines = draw.apt
        ? left.slice(0, draw.flag ? left.length : 1 + (draw.second % 3))
        : left.slice(draw.pick % 2);
      return lines.length === 0 ? undefined : { ...own, kind, lines: lines.map(({ of }) => of.key) };
    }
    case 'close':
      if (opening === undefined) return undefined;
      return {
        ...own,
        who: draw.flag && draw.apt ? 'lead' : who,
        kind,
        opening,
        override: draw.flag && draw.pick % 3 === 0,
      };
    case 'count off': {
      if (opening === undefined) return undefined;
      const lines = engine.lines.filter((line) => line.opening === opening);
      const line = draw.flag && lines.length > 0 ? (at(lines, draw.pick)?.key ?? null) : null;
      const short = draw.pick % 2 === 0 ? draw.second % 3 : 0;
      const into = draw.otherFlag ? null : (tray ?? null);
      const reason = draw.pick % 2 === 0 ? 'One more than the book says' : '';
      return {
        ...own,
        kind,
        line,
        layer: draw.pick % 7 === 1,
        oneTime: draw.pick % 11 === 2,
        count: line === null && draw.pick % 4 === 3 ? aCountOfItsOwn(draw) : draw.count,
        short,
        tray: into,
        reason,
      };
    }
    default:
      return lineAct({ engine, draw, base: own }, tray);
  }
}

/** So large and odd that it can be told from any other number in a reply. */
const aCountOfItsOwn = ({ pick, second }: Draw): number => 1000 + pick * 4 + second;

function lineAct({ engine, draw, base }: Of, tray: string | undefined): Act | undefined {
  const { kind, count, pick } = draw;
  const isHere = (each: LineBelief) => each.opening === engine.opening?.key;
  switch (kind) {
    case 'moved':
    case 'fitted':
    case 'renewed':
    case 'accounted':
      return takingAct({ engine, draw, base }, tray);
    case 'found':
    case 'never there':
    case 'possibly inside': {
      const line = fitting(engine.lines, (each) => missingOf(each) > 0 && isHere(each), pick);
      return line === undefined
        ? undefined
        : { ...base, kind, line: line.key, count: draw.apt ? Math.min(count, Math.max(1, missingOf(line))) : count };
    }
    default:
      return undefined;
  }
}

/** More than are ever loose of one line: who is refused it must not learn how many are. */
const MORE_THAN_ANY = 9000;

/** Loose pieces go somewhere: all of them wherever they lie, or some out of one place. */
function takingAct({ engine, draw, base }: Of, tray: string | undefined): Act | undefined {
  const { kind, apt, flag, pick, second, count } = draw;
  const line = fitting(engine.lines, (each) => looseOf(each) > 0 && each.opening === engine.opening?.key, pick);
  if (line === undefined) return undefined;
  const places = [...line.lies].filter(([, there]) => there > 0);
  const [from, there] = at(places, second) ?? [WITH_ENGINE, 1];
  const guess = second % 2 === 0 ? count + MORE_THAN_ANY : count;
  const some = apt ? Math.max(1, Math.min(there, count)) : guess;
  const taken = flag
    ? { line: line.key, from, count: some }
    : { line: line.key, from: undefined, count: apt ? Math.max(1, looseOf(line)) : guess };
  switch (kind) {
    case 'fitted':
    case 'renewed':
    case 'accounted':
      return { ...base, kind, ...taken };
    case 'moved': {
      const to = pick % 5 === 4 ? WITH_ENGINE : tray;
      if (to === undefined) return undefined;
      return { ...base, kind, ...taken, tray: to, count: flag ? some : undefined };
    }
    default:
      return undefined;
  }
}

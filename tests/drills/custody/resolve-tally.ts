import type { Act, ActKind, Draw } from './acts.ts';
import { at, benchOf, fitting, type Of } from './picking.ts';
import { placesLaid, placesTaken, rackAct } from './resolve-rack.ts';
import { type LineBelief, looseOf, missingOf, toCheck, WITH_ENGINE } from './state.ts';
import { isAway } from './turn.ts';

/** Whoever means to do one of these to a closed engine opens it first. */
const needsOpening: ReadonlySet<ActKind> = new Set([
  'count off',
  'found',
  'fitted',
  'renewed',
  'check',
  'moved',
  'fill',
  'swap',
]);

const bench = ['technician', 'colleague', 'lead'] as const;

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
  const trays = engine.trays.filter(({ held }) => !draw.apt || !isAway(held));
  const tray = draw.foreign ? foreign[0] : at(trays, draw.second)?.key;
  if (draw.apt && engine.opening === null && needsOpening.has(kind)) return { ...own, kind: 'open' };
  switch (kind) {
    case 'open':
      return { ...own, kind };
    case 'discharge': {
      const duty = fitting(engine.duties, ({ inside }) => inside || !draw.apt, draw.pick);
      return duty === undefined ? undefined : { ...base, who: draw.apt ? 'lead' : base.who, kind, duty: duty.key };
    }
    case 'read':
      return { ...own, kind, round: at(['as received', 'after work', 'as built'] as const, draw.pick) ?? 'as built' };
    case 'cover':
      return opening === undefined ? undefined : { ...own, kind, covered: draw.flag };
    case 'check': {
      // All that somebody may tick who put none of them back, or all that stand unticked, or one out of its turn.
      const left = toCheck(engine).filter(({ of }) => !of.checked);
      const checker = draw.apt ? (bench.find((name) => !left[0]?.doneBy.includes(name)) ?? who) : who;
      const until = left.findIndex(({ open, doneBy }) => open > 0 || doneBy.length === 0 || doneBy.includes(checker));
      const ready = until < 0 ? left : left.slice(0, Math.max(1, until));
      const lines = draw.apt ? (draw.pick % 5 === 0 ? left : ready) : left.slice(draw.pick % 2);
      return lines.length === 0 ? undefined : { ...own, who: checker, kind, lines: lines.map(({ of }) => of.key) };
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
      const short = draw.pick % 3 > 0 ? draw.second % 3 : 0;
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
        inOrder: draw.pick % 5 < 2,
        places: placesLaid(
          draw,
          engine.lines.find(({ key }) => key === line),
        ),
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
    case 'fill':
    case 'swap':
      return rackAct({ engine, draw, base });
    case 'found':
    case 'never there':
    case 'possibly inside': {
      const open = (each: LineBelief) => missingOf(each) - (kind === 'found' ? 0 : each.inside);
      const line = fitting(engine.lines, (each) => open(each) > 0 && isHere(each), pick);
      if (line === undefined) return undefined;
      const some = draw.apt ? Math.min(count, Math.max(1, open(line))) : count;
      const of = { ...base, line: line.key, count: some };
      return kind === 'found' ? { ...of, kind, places: placesLaid(draw, line) } : { ...of, kind };
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
  const suits = (each: LineBelief) =>
    !apt || ((kind !== 'fitted' || !each.oneTime) && (kind !== 'accounted' || each.layer === null));
  const line = fitting(
    engine.lines,
    (each) => looseOf(each) > 0 && each.opening === engine.opening?.key && suits(each),
    pick,
  );
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
      return { ...base, kind, ...taken, places: placesTaken(draw, line, taken) };
    case 'moved': {
      const to = pick % 5 === 4 || (apt && tray === from) ? WITH_ENGINE : tray;
      if (to === undefined) return undefined;
      return {
        ...base,
        kind,
        ...taken,
        tray: to,
        count: flag ? some : undefined,
        places: flag ? placesTaken(draw, line, taken) : undefined,
      };
    }
    default:
      return undefined;
  }
}

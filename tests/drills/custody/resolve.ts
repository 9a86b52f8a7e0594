import type { StaffName } from '../../support/shop.ts';
import type { Act, Draw } from './acts.ts';
import { type Belief, type EngineBelief, isHeldBy, looseOf, missingOf, toCheck } from './state.ts';

const at = <Item>(list: readonly Item[], pick: number): Item | undefined => list[pick % Math.max(1, list.length)];

/** Prefers what fits the act; when nothing does, anything there is: it will be refused. */
const fitting = <Item>(list: readonly Item[], fits: (item: Item) => boolean, pick: number): Item | undefined =>
  at(list.filter(fits), pick) ?? at(list, pick);

/** Each tray by a bit of `pick`, so that a smaller number is fewer trays. */
const some = (keys: readonly string[], pick: number): readonly string[] =>
  keys.filter((_, index) => ((pick >> index) & 1) === 1);

/** Reads a draw against what stands now. Undefined: there is nothing it could be about yet. */
export function resolve(belief: Belief, draw: Draw): Act | undefined {
  const engine = belief.engines[draw.engine];
  const foreign = belief.engines[draw.engine === 0 ? 1 : 0].trays.map(({ key }) => key);
  const trays = (keys: readonly string[]) => {
    const drawn = some(keys, draw.second);
    const chosen = drawn.length === 0 && draw.apt ? keys.slice(0, 1) : drawn;
    return draw.foreign ? [...chosen, ...foreign.slice(0, 1)] : chosen;
  };
  const base = { who: draw.who, engine: draw.engine } as const;
  return (
    custodyAct({ engine, draw, base, trays }) ??
    handoverAct({ engine, draw, base, trays }) ??
    tallyAct({ engine, draw, base, foreign })
  );
}

interface Of {
  readonly engine: EngineBelief;
  readonly draw: Draw;
  readonly base: { readonly who: StaffName; readonly engine: 0 | 1 };
}
type OfTrays = Of & { readonly trays: (keys: readonly string[]) => readonly string[] };

const benchOf = (who: StaffName): StaffName => (who === 'writer' || who === 'clerk' ? 'technician' : who);

function custodyAct({ engine, draw, base, trays }: OfTrays): Act | undefined {
  const { kind, counting, flag: withDifference } = draw;
  const who = draw.apt ? benchOf(base.who) : base.who;
  switch (kind) {
    case 'take': {
      const bay = 'bay' in engine.held.holder && draw.apt ? engine.held.holder.bay : draw.bay;
      const there = engine.trays.filter(({ held }) => 'bay' in held.holder && held.holder.bay === bay);
      const withEngine = draw.apt ? 'bay' in engine.held.holder && engine.held.holder.bay === bay : draw.otherFlag;
      const chosen = trays((draw.apt ? there : engine.trays).map(({ key }) => key));
      return { ...base, who, kind, bay, toBay: draw.otherBay, trays: chosen, withEngine, counting, withDifference };
    }
    case 'leave': {
      const holder = draw.apt && 'person' in engine.held.holder ? engine.held.holder.person : who;
      const own = engine.trays.filter(({ held }) => isHeldBy(held, holder));
      const withEngine = draw.apt ? isHeldBy(engine.held, holder) : draw.otherFlag;
      const chosen = trays((draw.apt ? own : engine.trays).map(({ key }) => key));
      return { ...base, who: holder, kind, bay: draw.bay, trays: chosen, withEngine, counting, withDifference };
    }
    case 'move': {
      const to = draw.flag ? draw.other : null;
      const chosen = trays(engine.trays.map(({ key }) => key));
      const mover = draw.apt ? 'lead' : base.who;
      return {
        ...base,
        who: mover,
        kind,
        bay: draw.bay,
        to,
        trays: chosen,
        withEngine: draw.otherFlag,
        counting,
        withDifference,
      };
    }
    case 'send out': {
      const tray = draw.otherFlag ? null : (at(engine.trays, draw.pick)?.key ?? null);
      const held = tray === null ? engine.held : engine.trays.find(({ key }) => key === tray)?.held;
      const holder = draw.apt && held !== undefined && 'person' in held.holder ? held.holder.person : who;
      return { ...base, who: holder, kind, tray, counting, withDifference };
    }
    case 'back': {
      const away = fitting(engine.away, ({ back }) => !back, draw.pick);
      return away === undefined
        ? undefined
        : { ...base, who, kind, away: away.key, bay: draw.bay, counting, withDifference };
    }
    case 'make tray':
      return { ...base, who, kind, alone: draw.flag };
    default:
      return undefined;
  }
}

function handoverAct({ engine, draw, base, trays }: OfTrays): Act | undefined {
  const { kind } = draw;
  if (kind === 'offer') {
    const holder = 'person' in engine.held.holder ? engine.held.holder.person : undefined;
    const anyTray = engine.trays.find(({ held }) => 'person' in held.holder)?.held.holder;
    const giver = holder ?? (anyTray !== undefined && 'person' in anyTray ? anyTray.person : undefined);
    const who = draw.apt && giver !== undefined ? giver : base.who;
    const own = engine.trays.filter(({ held }) => isHeldBy(held, who)).map(({ key }) => key);
    const others = (['technician', 'colleague', 'lead'] as const).filter((name) => name !== who);
    const receiver = draw.apt ? (at(others, draw.pick) ?? 'lead') : draw.other;
    const withEngine = draw.apt ? isHeldBy(engine.held, who) && (draw.otherFlag || own.length === 0) : draw.otherFlag;
    const chosen = trays(draw.apt ? own : engine.trays.map(({ key }) => key));
    return { ...base, who, kind, receiver, place: draw.bay, trays: chosen, withEngine };
  }
  const offer = fitting(engine.offers, ({ ended }) => !ended || !draw.apt, draw.pick);
  if (offer === undefined) return undefined;
  const receiver = draw.apt ? offer.receiver : base.who;
  switch (kind) {
    case 'count': {
      const uncounted = ({ lines }: (typeof offer.trays)[number]) => lines.some(({ counted }) => counted === null);
      const tray = fitting(offer.trays, (each) => draw.flag || uncounted(each), draw.second)?.tray;
      const asked = draw.foreign ? (engine.trays[0]?.key ?? tray) : tray;
      if (asked === undefined) return undefined;
      return { ...base, who: receiver, kind, offer: offer.key, tray: asked, counting: draw.counting };
    }
    case 'accept':
      return { ...base, who: receiver, kind, offer: offer.key };
    case 'decline':
      return { ...base, who: receiver, kind, offer: offer.key, reason: draw.foreign ? ' ' : 'Not washed' };
    case 'withdraw':
      return { ...base, who: draw.apt ? offer.giver : base.who, kind, offer: offer.key };
    default:
      return undefined;
  }
}

function tallyAct({ engine, draw, base, foreign }: Of & { readonly foreign: readonly string[] }): Act | undefined {
  const { kind } = draw;
  const who = draw.apt ? benchOf(base.who) : base.who;
  const own = { ...base, who };
  const opening = engine.opening?.key ?? engine.closed.at(-1);
  const tray = draw.foreign ? foreign[0] : at(engine.trays, draw.second)?.key;
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
      const left = toCheck(engine).filter(({ checked }) => !checked);
      const lines = draw.apt
        ? left.slice(0, draw.flag ? left.length : 1 + (draw.second % 3))
        : left.slice(draw.pick % 2);
      return lines.length === 0 ? undefined : { ...own, kind, lines: lines.map(({ key }) => key) };
    }
    case 'close':
      if (opening === undefined) return undefined;
      return { ...own, who: draw.flag && draw.apt ? 'lead' : who, kind, opening, override: draw.flag };
    case 'count off': {
      if (opening === undefined) return undefined;
      const lines = engine.lines.filter((line) => line.opening === opening);
      const line = draw.flag && lines.length > 0 ? (at(lines, draw.pick)?.key ?? null) : null;
      const short = draw.pick % 3 === 0 ? draw.second % 3 : 0;
      const into = draw.otherFlag ? null : (tray ?? null);
      const reason = draw.pick % 2 === 0 ? 'One more than the book says' : '';
      return {
        ...own,
        kind,
        line,
        layer: draw.pick % 7 === 1,
        oneTime: draw.pick % 11 === 2,
        count: draw.count,
        short,
        tray: into,
        reason,
      };
    }
    default:
      return lineAct({ engine, draw, base: own }, tray);
  }
}

function lineAct({ engine, draw, base }: Of, tray: string | undefined): Act | undefined {
  const { kind, count, pick } = draw;
  switch (kind) {
    case 'moved': {
      const line = fitting(engine.lines, (each) => looseOf(each) > 0, pick);
      return line === undefined || tray === undefined ? undefined : { ...base, kind, line: line.key, tray };
    }
    case 'found':
    case 'never there':
    case 'possibly inside': {
      const line = fitting(engine.lines, (each) => missingOf(each) > 0 && each.opening === engine.opening?.key, pick);
      return line === undefined
        ? undefined
        : { ...base, kind, line: line.key, count: draw.apt ? Math.min(count, Math.max(1, missingOf(line))) : count };
    }
    case 'fitted':
    case 'renewed':
    case 'accounted': {
      const fits = (each: (typeof engine.lines)[number]) => looseOf(each) > 0 && each.opening === engine.opening?.key;
      const line = fitting(engine.lines, fits, pick);
      if (line === undefined) return undefined;
      return { ...base, kind, line: line.key, count: draw.apt ? Math.max(1, looseOf(line)) : count };
    }
    default:
      return undefined;
  }
}

import type { Act, Draw } from './acts.ts';
import { firstThingsFirst } from './first-things.ts';
import { at, benchOf, fitting, type Of } from './picking.ts';
import { putInAct } from './resolve-put-in.ts';
import { tallyAct } from './resolve-tally.ts';
import { runAct } from './runs.ts';
import { type Belief, isHeldBy } from './state.ts';
import { isAway } from './turn.ts';

/** Each tray by a bit of `pick`, so that a smaller number is fewer trays. */
const some = (keys: readonly string[], pick: number): readonly string[] =>
  keys.filter((_, index) => ((pick >> index) & 1) === 1);

/** Reads a draw against what stands now. Undefined: there is nothing it could be about yet. */
export function resolve(belief: Belief, drawn: Draw): Act | undefined {
  const draw = firstThingsFirst(belief, drawn);
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
    putInAct({ engine, draw, base }) ??
    runAct({ engine, draw, base }) ??
    tallyAct({ engine, draw, base, foreign })
  );
}

type OfTrays = Of & { readonly trays: (keys: readonly string[]) => readonly string[] };

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
      const to = draw.flag ? (draw.apt ? benchOf(draw.other) : draw.other) : null;
      const here = engine.trays.filter(({ held }) => !draw.apt || !isAway(held));
      const chosen = trays(here.map(({ key }) => key));
      const mover = draw.apt ? 'lead' : base.who;
      return {
        ...base,
        who: mover,
        kind,
        bay: draw.bay,
        to,
        trays: chosen,
        withEngine: draw.otherFlag && !(draw.apt && isAway(engine.held)),
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

import type { RoomName } from '../../support/shop.ts';
import type { Counting } from './acts.ts';
import { differing, faultOfCounting, keyedCounts, type ToCount } from './counting.ts';
import {
  BENCH,
  type EngineBelief,
  type Held,
  type Holder,
  isHeldBy,
  isOffered,
  looseIn,
  lyingIn,
  openOffers,
  WITH_ENGINE,
} from './state.ts';
import { isAway, isFull, type Turn, traysOf } from './turn.ts';

const lineKey = (tray: string, line: string): string => `${tray} ${line}`;

const BESIDE = { key: WITH_ENGINE };

/** What there is to count in some trays, and beside the engine. */
const toCount = (engine: EngineBelief, trays: readonly { readonly key: string }[]): readonly ToCount[] =>
  trays.flatMap(({ key }) =>
    looseIn(engine, key).map((line) => ({ key: lineKey(key, line.key), there: lyingIn(line, key) })),
  );

/**
 * Refuses a count that is none; a difference too, unless it is said to go on: it is kept all the same, when nothing else
 * refuses it before. Returns how what was counted is kept.
 */
function counted(
  turn: Turn,
  trays: readonly { readonly key: string }[],
  { counting, withDifference }: { readonly counting: Counting; readonly withDifference: boolean },
): () => void {
  const { engine, seen, refusals, key } = turn;
  const lines = toCount(engine, trays);
  const asked = toCount(seen, trays);
  const fault = faultOfCounting(asked, counting);
  if (fault !== undefined) refusals.add(fault);
  const keyed = keyedCounts(asked, counting);
  const others = keyed.some((count) => lines.every((line) => line.key !== count.key));
  const leftOut = lines.some((line) => keyed.every((count) => count.key !== line.key));
  if (others || leftOut) refusals.add(422);
  const differences = fault === undefined ? differing(lines, keyed) : [];
  const keep = () => {
    const agreeing = lines.filter((line) => differences.every((difference) => difference.key !== line.key));
    // One that agrees is kept where an earlier one of the same differed and nobody has settled it.
    const again = agreeing.filter((line) => engine.duties.some(({ miscount }) => miscount?.startsWith(`${line.key} `)));
    engine.countsKept += differences.length + again.length;
    for (const [index, { key: of, counted: said, there }] of differences.entries()) {
      const miscount = `${of} ${said} of ${there}`;
      if (engine.duties.some((duty) => duty.miscount === miscount)) continue;
      engine.duties.push({ key: key(`duty ${index}`), inside: engine.opening !== null, tallyLine: null, miscount });
    }
  };
  if (differences.length > 0 && !withDifference) {
    if (refusals.size === 0) turn.kept = keep;
    refusals.add(409);
  }
  return keep;
}

/** The bay's room is looked at last, when all is counted. */
function refuseUnlessRoom({ belief, engine, refusals }: Turn, bay: RoomName): void {
  if (isFull(belief, engine, bay)) refusals.add(409);
}

const placeAll = (subjects: readonly { held: Held }[], holder: Holder, place: RoomName | null): void => {
  for (const subject of subjects) subject.held = { holder, place };
};

/** Taking, leaving, moving for somebody absent, sending out and back, and making a tray. */
export function custodyRule(turn: Turn): (() => void) | undefined {
  switch (turn.act.kind) {
    case 'take':
    case 'leave':
    case 'move':
      return movingRule(turn);
    case 'send out':
      return sendingRule(turn);
    case 'back':
      return backRule(turn);
    case 'make tray': {
      const { alone } = turn.act;
      const { engine, refusals, act } = turn;
      if (engine.held.place === null) refusals.add(422);
      return () => {
        const held = { holder: { person: act.who }, place: engine.held.place };
        engine.trays.push({ key: turn.key('tray'), alone, held });
      };
    }
    default:
      return undefined;
  }
}

function movingRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'take' && act.kind !== 'leave' && act.kind !== 'move') return undefined;
  if (!act.withEngine && act.trays.length === 0) refusals.add(422);
  const trays = traysOf(turn, act.trays);
  const subjects = [...(act.withEngine ? [engine] : []), ...trays];
  const offered = isOffered(engine, { engine: act.withEngine, trays: act.trays });
  if (act.kind !== 'move' && offered) refusals.add(409);
  if (act.kind === 'move' && act.who !== 'lead') refusals.add(403);
  if (act.kind === 'move' && act.to !== null && !BENCH.has(act.to)) refusals.add(422);
  const fits = (held: Held): boolean =>
    act.kind === 'take'
      ? 'bay' in held.holder && held.holder.bay === act.bay
      : act.kind === 'leave'
        ? isHeldBy(held, act.who)
        : !isAway(held);
  if (subjects.some(({ held }) => !fits(held))) refusals.add(409);
  const bay = act.kind === 'take' ? act.toBay : act.bay;
  const keep = counted(turn, [...trays, ...(act.withEngine ? [BESIDE] : [])], act);
  if (act.withEngine) refuseUnlessRoom(turn, bay);
  const holder: Holder =
    act.kind === 'take' ? { person: act.who } : act.kind === 'move' && act.to !== null ? { person: act.to } : { bay };
  return () => {
    if (act.kind === 'move') {
      for (const offer of openOffers(engine)) {
        if (isOffered({ ...engine, offers: [offer] }, { engine: act.withEngine, trays: act.trays })) offer.ended = true;
      }
    }
    keep();
    placeAll(subjects, holder, bay);
  };
}

function sendingRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  if (act.kind !== 'send out') return undefined;
  const trays = act.tray === null ? [] : traysOf(turn, [act.tray]);
  const subject = act.tray === null ? engine : trays[0];
  if (isOffered(engine, { engine: act.tray === null, trays: act.tray === null ? [] : [act.tray] })) refusals.add(409);
  if (subject !== undefined && !('bay' in subject.held.holder) && !isHeldBy(subject.held, act.who)) refusals.add(409);
  const keep = counted(turn, act.tray === null ? [BESIDE] : trays, act);
  return () => {
    keep();
    if (subject !== undefined) placeAll([subject], { vendor: true }, null);
    engine.away.push({ key: key('away'), tray: act.tray, back: false });
  };
}

function backRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind !== 'back') return undefined;
  const away = engine.away.find(({ key }) => key === act.away);
  const trays = engine.trays.filter(({ key }) => key === away?.tray);
  if (away?.back !== false) refusals.add(409);
  const keep = counted(turn, away?.tray === null ? [BESIDE] : trays, act);
  if (away?.tray === null) refuseUnlessRoom(turn, act.bay);
  return () => {
    keep();
    if (away !== undefined) away.back = true;
    placeAll(away?.tray === null ? [engine] : trays, { bay: act.bay }, act.bay);
  };
}

import { faultOfCounting, keyedCounts } from './counting.ts';
import {
  BENCH,
  type EngineBelief,
  isHeldBy,
  isOffered,
  looseIn,
  lyingIn,
  type TrayBelief,
  WITH_ENGINE,
} from './state.ts';
import { isFull, type Turn, traysOf } from './turn.ts';

const ATTEMPTS = 3;

/** Loose pieces line by line, of a tray or beside the engine; a thing that travels alone, once; an empty tray: no pieces in it. */
function linesToCount(engine: EngineBelief, tray: Pick<TrayBelief, 'key' | 'alone'>) {
  const loose = looseIn(engine, tray.key).map((line) => ({
    line: line.key,
    given: lyingIn(line, tray.key),
    counted: null,
    differed: false,
  }));
  return loose.length > 0 ? loose : [{ line: null, given: tray.alone ? 1 : 0, counted: null, differed: false }];
}

/** Offering, counting blind, accepting, declining, withdrawing. */
export function handoverRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals } = turn;
  if (act.kind === 'offer') return offerRule(turn);
  if (act.kind === 'count') return countRule(turn);
  if (act.kind !== 'accept' && act.kind !== 'decline' && act.kind !== 'withdraw') return undefined;
  const offer = engine.offers.find(({ key }) => key === act.offer);
  if (offer === undefined) return undefined;
  if (offer.ended) refusals.add(409);
  if (act.who !== (act.kind === 'withdraw' ? offer.giver : offer.receiver)) refusals.add(403);
  if (act.kind === 'decline' && act.reason.trim() === '') refusals.add(400);
  if (act.kind === 'accept') return acceptRule(turn, offer.key);
  return () => {
    offer.ended = true;
  };
}

function offerRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key } = turn;
  if (act.kind !== 'offer') return undefined;
  const { receiver, place, withEngine } = act;
  if (!withEngine && act.trays.length === 0) refusals.add(422);
  if (receiver === act.who || !BENCH.has(receiver)) refusals.add(422);
  const trays = traysOf(turn, act.trays);
  if (withEngine && !isHeldBy(engine.held, act.who)) refusals.add(409);
  if (trays.some(({ held }) => !isHeldBy(held, act.who))) refusals.add(409);
  if (isOffered(engine, { engine: withEngine, trays: act.trays })) refusals.add(409);
  return () => {
    engine.offers.push({
      key: key('offer'),
      giver: act.who,
      receiver,
      place,
      engine: withEngine,
      trays: [
        ...trays.map((tray) => ({ tray: tray.key, attempts: 0, lines: linesToCount(engine, tray) })),
        ...(withEngine && looseIn(engine, WITH_ENGINE).length > 0
          ? [{ tray: WITH_ENGINE, attempts: 0, lines: linesToCount(engine, { key: WITH_ENGINE, alone: false }) }]
          : []),
      ],
      ended: false,
    });
  };
}

function countRule(turn: Turn): (() => void) | undefined {
  const { act, engine, refusals, key: made } = turn;
  if (act.kind !== 'count') return undefined;
  const offer = engine.offers.find(({ key }) => key === act.offer);
  if (offer === undefined) return undefined;
  const tray = offer.trays.find((each) => each.tray === act.tray);
  if (offer.ended) refusals.add(409);
  if (act.who !== offer.receiver) refusals.add(403);
  if (tray === undefined) refusals.add(404);
  else if (tray.attempts >= ATTEMPTS) refusals.add(422);
  const lines = (tray?.lines ?? []).map(({ given }, index) => ({ key: String(index), there: given }));
  const fault = faultOfCounting(lines, act.counting);
  if (fault !== undefined) refusals.add(fault);
  if (keyedCounts(lines, act.counting).length === 0) refusals.add(400);
  return () => {
    if (tray === undefined) return;
    tray.attempts += 1;
    for (const { key, counted } of keyedCounts(lines, act.counting)) {
      const line = tray.lines[Number(key)];
      if (line === undefined) continue;
      line.counted = counted;
      if (counted === line.given || line.differed) continue;
      line.differed = true;
      engine.duties.push({
        key: made(`duty ${key}`),
        inside: engine.opening !== null,
        tallyLine: null,
        miscount: null,
      });
    }
  };
}

function acceptRule(turn: Turn, offerKey: string): (() => void) | undefined {
  const { belief, engine, refusals } = turn;
  const offer = engine.offers.find((each) => each.key === offerKey);
  if (offer === undefined) return undefined;
  const lines = offer.trays.flatMap((tray) => tray.lines);
  if (lines.some(({ counted }) => counted === null)) refusals.add(422);
  if (offer.engine && isFull(belief, engine, offer.place)) refusals.add(409);
  return () => {
    offer.ended = true;
    const held = { holder: { person: offer.receiver }, place: offer.place };
    if (offer.engine) engine.held = held;
    for (const tray of engine.trays) if (offer.trays.some((each) => each.tray === tray.key)) tray.held = held;
  };
}

import type { EngineEvents } from '#contracts/engines.ts';
import type { Rack } from '#contracts/searches.ts';
import type { StaffName } from '../../support/shop.ts';
import { IN_ORDER } from './requests.ts';
import { type Belief, blindTo, type LineBelief, looseOf, lyingIn, WITH_ENGINE } from './state.ts';
import type { World } from './world.ts';

export interface Looking {
  readonly belief: Belief;
  readonly engine: 0 | 1;
  readonly who: StaffName;
}

/** A rack as it must be told: place by place whether it is filled, and whose piece lies there. */
const believed = ({ rack }: LineBelief, id: (key: string) => string): readonly string[] =>
  rack.map(({ from: code }) => {
    const lies = rack.find(({ at }) => at === code);
    const tray = lies?.laid === true && lies.tray !== WITH_ENGINE ? id(lies.tray) : '';
    return `${code}: ${lies?.from} ${lies?.laid} ${tray}`;
  });
const told = ({ places }: Rack): readonly string[] =>
  places.map(({ code, from, filled, tray }) => `${code}: ${from} ${filled} ${tray?.id ?? ''}`);

/** Racks are told as they stand, and to who is yet to count some of one, which of its places are filled is not. */
export async function checkRacksTold({ shop, names }: World, { belief, engine: index, who }: Looking): Promise<void> {
  const engine = belief.engines[index];
  const { opening } = engine;
  if (opening === null) return;
  const lines = engine.lines.filter((line) => line.opening === opening.key && line.rack.length > 0);
  const items: Rack[] = (await shop.as[who].get(`/api/openings/${names.id(opening.key)}/racks`)).body.items;
  if (items.length !== lines.length) throw new Error(`${who} reads ${items.length} racks; there are ${lines.length}`);
  const blind = blindTo(engine, who).map(({ tray }) => tray);
  for (const line of lines) {
    const rack = items.find(({ pieceId }) => pieceId === names.id(line.key));
    if (rack === undefined) throw new Error(`${who} does not read the rack of ${line.key}`);
    const words = `${who} reads of the rack of ${line.key}: ${rack.loose} loose, ${told(rack).join(', ')}`;
    const right = believed(line, (key) => names.id(key));
    const isHidden = rack.loose === null;
    if (isHidden && rack.places.some(({ filled, since }) => filled !== null || since !== null)) throw new Error(words);
    if (!isHidden && blind.some((tray) => lyingIn(line, tray) > 0)) throw new Error(`${words}; it is blind`);
    if (isHidden && blind.every((tray) => !line.lies.has(tray))) throw new Error(`${words}; it is not blind`);
    const isRight = rack.loose === looseOf(line) && told(rack).join() === right.join();
    if (!isHidden && !isRight) throw new Error(`${words}, not ${looseOf(line)} loose, ${right.join(', ')}`);
  }
}

const COUNTING = ['count', 'places', 'filled', 'emptied', 'off'];

/** No event tells which places of a rack are filled, or how many, to who is yet to count some of such a line. */
export async function checkRackEvents({ shop, names }: World, { belief, engine: index, who }: Looking): Promise<void> {
  const engine = belief.engines[index];
  const blind = blindTo(engine, who);
  const isBlind = (line: LineBelief) => line.rack.length > 0 && blind.some(({ tray }) => lyingIn(line, tray) > 0);
  if (!engine.lines.some(isBlind)) return;
  const { engineId } = names.engines[index];
  const events: EngineEvents = (await shop.as[who].get(`/api/engines/${engineId}/events?limit=200`)).body;
  for (const { kind, data } of events.items) {
    const pieces = Array.isArray(data.pieces) ? data.pieces : [];
    const telling = pieces.find((piece) => piece?.name?.startsWith(IN_ORDER) && COUNTING.some((fact) => fact in piece));
    if (telling !== undefined) throw new Error(`${kind} tells ${who} ${JSON.stringify(telling)}, who counts it blind`);
  }
}

/** One side of a feeler interval: blades laid together, none at all (null), or not said yet (undefined). */
export type Side = readonly string[] | null | undefined;

export interface BladesKeyed {
  readonly go: Side;
  readonly noGo: Side;
  /** Which of the two the next tap says. */
  readonly asked: 'go' | 'noGo';
}

export const noBlades: BladesKeyed = { go: undefined, noGo: undefined, asked: 'go' };

export const sideText = (side: Side): string | null => (side === undefined || side === null ? null : side.join('+'));

export const thickness = (side: Side): number | null =>
  side === undefined || side === null ? null : side.reduce((sum, blade) => sum + Number(blade.replace(',', '.')), 0);

/** Both sides are said, and at least one of them names a blade. */
export const isWhole = ({ go, noGo }: BladesKeyed): boolean =>
  go !== undefined && noGo !== undefined && !(go === null && noGo === null);

const other = (side: 'go' | 'noGo') => (side === 'go' ? 'noGo' : 'go');

/** Says the asked side; the other one is asked next if it is still open. */
export function saySide(keyed: BladesKeyed, side: Side): BladesKeyed {
  const said = { ...keyed, [keyed.asked]: side };
  return said[other(keyed.asked)] === undefined ? { ...said, asked: other(keyed.asked) } : said;
}

/** A tap on a blade: alone, or laid together with those tapped before it on the same side. */
export function tapBlade(keyed: BladesKeyed, blade: string, together: boolean): BladesKeyed {
  if (!together) return saySide(keyed, [blade]);
  const before = keyed[keyed.asked] ?? [];
  const next = before.includes(blade) ? before.filter((one) => one !== blade) : [...before, blade];
  return { ...keyed, [keyed.asked]: next.length === 0 ? undefined : next };
}

export const isUpsideDown = ({ go, noGo }: BladesKeyed): boolean => {
  const [thin, thick] = [thickness(go), thickness(noGo)];
  return thin !== null && thick !== null && thick <= thin;
};

/** "0.35" or "0.25+0.10" as blades of one side; "-": none. */
export const sideOf = (text: string): Side => (text === '-' ? null : text.split('+').filter((blade) => blade !== ''));

/** What is typed on top of what was said: two values to a place, and with more than two the places in order. */
export function bladesTyped(keyed: BladesKeyed, values: readonly string[]): readonly BladesKeyed[] {
  const say = (from: BladesKeyed, said: readonly string[]) =>
    said.reduce((so, value) => saySide(so, sideOf(value)), from);
  if (values.length <= 2) return [say(keyed, values)];
  const pairs = Array.from({ length: Math.ceil(values.length / 2) }, (_, nth) => values.slice(2 * nth, 2 * nth + 2));
  return pairs.map((pair) => say(noBlades, pair));
}

export const intervalOf = ({ go, noGo }: BladesKeyed) => ({ go: sideText(go), noGo: sideText(noGo) });

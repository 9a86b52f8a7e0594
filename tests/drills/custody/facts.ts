import type { RackedPiece } from './rack.ts';
import {
  type Belief,
  type EngineBelief,
  type Held,
  type LineBelief,
  lastOffFirst,
  type OfferBelief,
  WITH_ENGINE,
} from './state.ts';

/** What stands of one engine, in a form that belief and database can be compared in. */
export interface EngineFacts {
  readonly custody: readonly string[];
  readonly openings: readonly string[];
  readonly lines: readonly string[];
  readonly things: readonly string[];
  readonly searches: readonly string[];
  /** What came off or was put in, the last first: the order of the closing check, of lines none of which is off too. */
  readonly toCheck: string;
  readonly offers: readonly string[];
  readonly away: readonly string[];
  readonly runs: readonly string[];
  /** Counts kept as something moved. */
  readonly countsKept: number;
  /** Open obligations: those on the inside, those not. */
  readonly duties: string;
}

export type EngineIndex = 0 | 1;

/** What stood at one instant, of the engines that were looked at. */
export interface Facts {
  readonly at: string;
  readonly engines: readonly { readonly index: EngineIndex; readonly facts: EngineFacts }[];
}

const heldWords = (subject: string, { holder, place }: Held): string => {
  const by = 'person' in holder ? holder.person : 'bay' in holder ? holder.bay : 'vendor';
  return `${subject}: ${by} in ${place ?? 'no bay'}`;
};

/** Whatever order they come in. */
export const numbersInWords = (numbers: readonly number[]): string => numbers.toSorted((a, b) => a - b).join(' ');

/** What stands counted of an offer: of two counts at once, the later one's. */
const lastCounts = (trays: OfferBelief['trays']): readonly number[] =>
  trays.flatMap(({ lines }) => lines.flatMap(({ counted }) => (counted === null ? [] : [counted])));

export const placesInWords = (places: readonly { tray: string; count: number }[]): string =>
  places
    .map(({ tray, count }) => `${count} in ${tray === WITH_ENGINE ? 'no tray' : tray}`)
    .toSorted()
    .join(' and ');

/** A rack, by the places its pieces came from: which of them lie in it, and which are in another's place. */
export const rackInWords = (rack: readonly RackedPiece[]): string =>
  rack.length === 0
    ? ''
    : `, rack ${rack.map(({ from, at, laid, tray }) => `${from}${at === from ? '' : `@${at}`}${laid ? `+${tray}` : '-'}`).join(' ')}`;

function lineWords(line: LineBelief): string {
  const { key, expected, off, fitted, renewed, accounted, inside, lies, rack, checked } = line;
  const places = [...lies].filter(([, count]) => count > 0).map(([tray, count]) => ({ tray, count }));
  return `${key}: ${expected}/${off}/${fitted}/${renewed}/${accounted}, ${inside} inside, ${placesInWords(places)}${rackInWords(rack)}${checked ? ', checked' : ''}`;
}

/** What must stand of one engine by the drill's own belief. */
export function believed(belief: Belief, index: EngineIndex): EngineFacts {
  const engine: EngineBelief = belief.engines[index];
  return {
    custody: [
      heldWords('engine', engine.held),
      ...engine.trays.map(({ key, held }) => heldWords(key, held)),
    ].toSorted(),
    openings: [
      ...engine.closed.map((key) => `${key} closed`),
      ...(engine.opening === null ? [] : [`${engine.opening.key} ${engine.opening.covered ? 'covered' : 'open'}`]),
    ].toSorted(),
    lines: engine.lines.map(lineWords).toSorted(),
    things: engine.things
      .map(
        ({ key, count, cameOut, notFound, checked }) =>
          `${key}: ${count}/${cameOut}/${notFound}${checked ? ', checked' : ''}`,
      )
      .toSorted(),
    searches: engine.searches
      .map(({ key, ended, ticks }) => `${key}: ${ended ?? 'goes on'}, ${ticks.length} ticked`)
      .toSorted(),
    toCheck: lastOffFirst(engine)
      .map(({ key }) => key)
      .join(', '),
    offers: engine.offers
      .map(
        ({ key, ended, trays }) =>
          `${key} ${ended ? 'ended' : 'open'} ${trays.reduce((sum, { attempts }) => sum + attempts, 0)}: ${numbersInWords(lastCounts(trays))}`,
      )
      .toSorted(),
    away: engine.away.map(({ key, back }) => `${key} ${back ? 'back' : 'away'}`).toSorted(),
    runs: engine.run === null ? [] : [`${engine.run.key} ${engine.run.left ? 'left' : 'goes on'}`],
    countsKept: engine.countsKept,
    duties: `${engine.duties.filter(({ inside }) => inside).length} inside, ${engine.duties.filter(({ inside }) => !inside).length} other`,
  };
}

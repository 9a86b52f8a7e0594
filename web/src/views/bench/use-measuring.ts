import { useState } from 'react';
import type { BenchDimension, BenchInstrument, BenchView } from '#contracts/bench.ts';
import type { Round } from '#contracts/findings.ts';
import type { KeyedReading, KeyReadings } from '#contracts/readings.ts';
import { rounds } from '#domain/obligations/disposition.ts';
import { dropEntry, type Entry, keepEntry, takeBack, useEntries } from '../../app/outbox.ts';
import { STRIKE_REASON, sendNow } from '../../app/outbox-sending.ts';
import { useSession } from '../../app/session.tsx';
import {
  firstOpen,
  instrumentFor,
  lastKeyed,
  measuredOf,
  nextRepeat,
  type PlaceStanding,
  standingsOf,
} from './measuring.ts';
import { type Temperature, temperatureFields, useTemperature } from './use-temperature.ts';

/** Where the address asks to begin: `?dimension=lash-il&round=as built`. */
function asked(bench: BenchView): { readonly round: Round; readonly code: string | null } {
  const query = new URLSearchParams(location.search);
  const round = rounds.find((one) => one === query.get('round'));
  const code = measuredOf(bench).find((one) => one.code === query.get('dimension'))?.code ?? null;
  const latest = rounds.findLast((one) =>
    bench.dimensions.some(({ readings }) => readings.some((r) => r.round === one)),
  );
  return { round: round ?? latest ?? 'as received', code };
}

/** The dimension after this one that still has an open position; none: undefined. */
function nextToMeasure(
  dimensions: readonly BenchDimension[],
  after: BenchDimension,
  isOpen: (dimension: BenchDimension) => boolean,
): BenchDimension | undefined {
  const at = dimensions.indexOf(after);
  return [...dimensions.slice(at + 1), ...dimensions.slice(0, at)].find(isOpen);
}

export interface Said {
  readonly place: PlaceStanding;
  /** The figure, the blades or the play; what goes with it is added. */
  readonly what: Pick<KeyedReading, 'text' | 'interval' | 'felt'>;
  /** Another unit than the gauge's. */
  readonly unit?: string;
}

export interface Measuring {
  readonly bench: BenchView;
  readonly round: Round;
  readonly dimension: BenchDimension;
  readonly standings: readonly PlaceStanding[];
  /** The position asked for now; undefined: all are read or passed over. */
  readonly place: PlaceStanding | undefined;
  readonly passedOver: ReadonlySet<string>;
  readonly instrument: BenchInstrument | undefined;
  readonly unit: string;
  readonly next: BenchDimension | undefined;
  readonly temperature: Temperature;
  readonly entries: readonly Entry[];
  readonly last: ReturnType<typeof lastKeyed>;
  readonly openIn: (dimension: BenchDimension) => readonly PlaceStanding[];
  readonly choose: (of: { round?: Round; code?: string; position?: string | null }) => void;
  readonly passOver: () => void;
  readonly takeGauge: (code: string) => void;
  readonly sayTemperature: (temperature: Temperature) => void;
  readonly bodyOf: (said: readonly Said[]) => KeyReadings | null;
  /** Keeps them as one row, written and told of once; `stay` asks for the same position again. */
  readonly keep: (said: readonly Said[], of?: { stay?: boolean; confirmReason?: string }) => void;
  readonly undoLast: () => void;
  /** A refused entry, changed and sent as a new one with its own time. */
  readonly mend: (entry: Entry, change: (body: KeyReadings) => KeyReadings) => void;
  readonly drop: (entry: Entry) => void;
}

type Where = Pick<
  Measuring,
  'round' | 'dimension' | 'standings' | 'place' | 'passedOver' | 'openIn' | 'choose' | 'passOver'
>;

/** Which round, which dimension, which place; an address or a tap says so, else the first that is open. */
function useWhere(bench: BenchView, entries: readonly Entry[]): Where {
  const dimensions = measuredOf(bench);
  const [start] = useState(() => asked(bench));
  const [round, setRound] = useState(start.round);
  const [code, setCode] = useState(start.code);
  const [position, setPosition] = useState<string | null>(null);
  const [passed, setPassed] = useState<Readonly<Record<string, readonly string[]>>>({});
  const openIn = (one: BenchDimension) => standingsOf(one, round, entries).filter(({ taken }) => taken.length === 0);
  const dimension =
    dimensions.find((one) => one.code === code) ?? dimensions.find((one) => openIn(one).length > 0) ?? dimensions[0];
  if (dimension === undefined) throw new Error('a bench without a dimension to measure is not shown');
  const key = `${round} ${dimension.code}`;
  const passedOver = new Set(passed[key] ?? []);
  const standings = standingsOf(dimension, round, entries);
  const place = standings.find((one) => one.position.code === position) ?? firstOpen(standings, passedOver);
  return {
    round,
    dimension,
    standings,
    place,
    passedOver,
    openIn,
    choose: (of) => {
      if (of.round !== undefined) setRound(of.round);
      // The dimension that was asked for stays the one until another is chosen.
      setCode(of.code ?? dimension.code);
      setPosition(of.position ?? null);
    },
    passOver: () => {
      if (place === undefined) return;
      setPassed({ ...passed, [key]: [...passedOver, place.position.code] });
      setCode(dimension.code);
      setPosition(null);
    },
  };
}

/** Writes entries of one person on one job. */
function usePen(jobId: string) {
  const { person } = useSession();
  const own = { personId: person.id, person: person.name, jobId };
  return {
    person,
    reading: (body: KeyReadings, happenedAt?: string) =>
      keepEntry({
        kind: 'reading',
        ...own,
        path: `/jobs/${jobId}/readings`,
        body,
        ...(happenedAt === undefined ? {} : { happenedAt }),
      }),
    strike: (readingId: string) =>
      keepEntry({ kind: 'strike', ...own, path: `/readings/${readingId}/strike`, body: { reason: STRIKE_REASON } }),
  };
}

export function useMeasuring(bench: BenchView): Measuring {
  const pen = usePen(bench.jobId);
  const entries = useEntries().filter(({ jobId }) => jobId === bench.jobId);
  const where = useWhere(bench, entries);
  const { round, dimension, place, openIn, choose } = where;
  const [gauges, setGauges] = useState<Readonly<Record<string, string>>>({});
  const [temperature, sayTemperature] = useTemperature(bench.jobId);
  const instrument = instrumentFor(bench, dimension, { place, chosen: gauges[dimension.code] });
  const unit = instrument?.unit ?? dimension.unit;
  const last = lastKeyed(bench, pen.person.id, { round, entries });
  const readingOf = ({ place: at, what, unit: otherUnit }: Said): KeyedReading => ({
    position: at.position.code,
    repeat: nextRepeat(at),
    ...what,
    ...(what.felt === undefined
      ? {
          unit: otherUnit ?? unit,
          ...(instrument === undefined ? {} : { instrumentCode: instrument.code }),
          ...(dimension.kind === 'length' ? temperatureFields(temperature) : {}),
        }
      : {}),
  });
  const bodyOf = (said: readonly Said[]): KeyReadings => ({
    round,
    dimension: dimension.code,
    readings: said.map(readingOf),
  });
  return {
    ...where,
    bench,
    instrument,
    unit,
    next: nextToMeasure(measuredOf(bench), dimension, (one) => openIn(one).length > 0),
    temperature,
    entries,
    last,
    takeGauge: (gauge) => setGauges({ ...gauges, [dimension.code]: gauge }),
    sayTemperature,
    bodyOf: (said) => (said.length === 0 ? null : bodyOf(said)),
    keep: (said, { stay = false, confirmReason } = {}) => {
      if (said.length > 0) pen.reading({ ...bodyOf(said), ...(confirmReason === undefined ? {} : { confirmReason }) });
      choose({ position: stay ? (said.at(-1)?.place.position.code ?? null) : null });
      sendNow();
    },
    undoLast: () => {
      if (last === undefined) return;
      if (last.taken.entryKey !== null) {
        takeBack(last.taken.entryKey, { position: last.position.code, repeat: last.taken.repeat });
      }
      if (last.taken.readingId !== null) pen.strike(last.taken.readingId);
      choose({ code: last.dimension.code, position: last.position.code });
      sendNow();
    },
    mend: (entry, change) => {
      pen.reading(change(entry.body as KeyReadings), entry.happenedAt);
      dropEntry(entry.key);
      sendNow();
    },
    drop: (entry) => dropEntry(entry.key),
  };
}

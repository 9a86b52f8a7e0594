import type { BenchDimension, BenchInstrument, BenchView } from '#contracts/bench.ts';
import type { Finding, FoundValue, Round } from '#contracts/findings.ts';
import type { KeyedReading, KeyReadings, Reading } from '#contracts/readings.ts';
import type { SheetPosition } from '#contracts/specs.ts';
import { type Entry, readingsStanding } from '../../app/outbox.ts';

/** How a dimension is asked for: a figure, the blades of a feeler set, or play felt by hand. */
export type Asking = 'figure' | 'blades' | 'felt';

/** One reading at a position, wherever it is by now. */
export interface Taken {
  readonly repeat: number;
  /** As it was keyed. */
  readonly text: string;
  readonly unit: string;
  /** In the sheet's unit, where it can be drawn. */
  readonly value: number | null;
  readonly instrumentCode: string | null;
  readonly state: 'kept' | 'waiting' | 'refused';
  readonly readingId: string | null;
  readonly entryKey: string | null;
  readonly personId: string;
  readonly at: string;
}

export interface PlaceStanding {
  readonly position: SheetPosition;
  readonly taken: readonly Taken[];
}

/** A gap is asked for by its blades, and so is whatever is measured with a feeler set now. */
export const askingOf = (dimension: BenchDimension, gauge: BenchInstrument | undefined): Asking =>
  dimension.method === 'felt'
    ? 'felt'
    : dimension.method === 'interval' || (gauge !== undefined && gauge.blades.length > 0)
      ? 'blades'
      : 'figure';

/** The dimensions that are measured; the others are worked out from them. */
export const measuredOf = (bench: BenchView): readonly BenchDimension[] =>
  bench.dimensions.filter(
    ({ readingsOf, method }) =>
      readingsOf === null && method !== 'difference' && method !== 'ratio' && method !== 'stated',
  );

/** The dimensions that are worked out from one, through others too. */
export function derivedOf(bench: BenchView, dimension: BenchDimension): readonly BenchDimension[] {
  const reached = new Set([dimension.code]);
  // A sheet lists what is worked out in any order; a pass that adds nothing is the last.
  for (let before = 0; before < reached.size; ) {
    before = reached.size;
    for (const { code, readingsOf, minuend, subtrahend, numerator, denominator } of bench.dimensions) {
      const from = [readingsOf, minuend, subtrahend, numerator, denominator];
      if (from.some((each) => each !== null && reached.has(each))) reached.add(code);
    }
  }
  reached.delete(dimension.code);
  return bench.dimensions.filter(({ code }) => reached.has(code));
}

const perUnit: Readonly<Record<string, number>> = { mm: 1, in: 25.4, um: 0.001, thou: 0.0254, cm: 10, m: 1000 };

/** A keyed figure as a number of the sheet's unit, for drawing only; null where the units don't turn into each other. */
export function drawnValue(text: string, unit: string, sheetUnit: string): number | null {
  const value = Number(text.trim().replace(',', '.'));
  if (text.trim() === '' || !Number.isFinite(value)) return null;
  if (unit === sheetUnit) return value;
  const [from, to] = [perUnit[unit], perUnit[sheetUnit]];
  return from === undefined || to === undefined ? null : (value * from) / to;
}

/** What was keyed, as short text: "88.048", "0.35 / 0.40", "play". */
export function keyedText(reading: KeyedReading): string {
  if (reading.felt !== undefined) return reading.felt ? 'play' : 'none';
  if (reading.interval !== undefined) return `${reading.interval.go ?? 'none'} / ${reading.interval.noGo ?? 'none'}`;
  return reading.text ?? '';
}

function takenOfReading(reading: Reading, sheetUnit: string): Taken {
  return {
    repeat: reading.repeat,
    text: reading.text,
    unit: reading.unit,
    value: reading.value === null ? null : drawnValue(reading.value.value, reading.value.unit, sheetUnit),
    instrumentCode: reading.instrument?.name ?? null,
    state: 'kept',
    readingId: reading.id,
    entryKey: null,
    personId: reading.readBy.id,
    at: reading.readAt,
  };
}

const bodyOf = (entry: Entry): KeyReadings | undefined =>
  entry.kind === 'reading' ? (entry.body as KeyReadings) : undefined;

function takenOfEntry(entry: Entry, reading: KeyedReading, sheetUnit: string): Taken {
  const unit = reading.unit ?? sheetUnit;
  return {
    repeat: reading.repeat,
    text: keyedText(reading),
    unit,
    value: reading.text === undefined ? null : drawnValue(reading.text, unit, sheetUnit),
    instrumentCode: reading.instrumentCode ?? null,
    state: entry.refusal === null ? 'waiting' : 'refused',
    readingId: null,
    entryKey: entry.key,
    personId: entry.personId,
    at: entry.happenedAt,
  };
}

const struckPath = (readingId: string) => `/readings/${readingId}/strike`;

/** Position by position what was read in a round: what the server has, and what this terminal still keeps. */
export function standingsOf(
  dimension: BenchDimension,
  round: Round,
  entries: readonly Entry[],
): readonly PlaceStanding[] {
  const struck = new Set(entries.filter(({ kind }) => kind === 'strike').map(({ path }) => path));
  return dimension.positions.map((position) => {
    const kept = dimension.readings
      .filter((reading) => reading.round === round && reading.position === position.code)
      .filter(({ id }) => !struck.has(struckPath(id)))
      .map((reading) => takenOfReading(reading, dimension.unit));
    const here = entries.flatMap((entry) => {
      const body = bodyOf(entry);
      if (body === undefined || body.dimension !== dimension.code || body.round !== round) return [];
      return readingsStanding(entry)
        .filter((reading) => reading.position === position.code)
        .map((reading) => takenOfEntry(entry, reading, dimension.unit));
    });
    // Between the server's answer and the drop of the entry a reading is there twice for a moment.
    const fresh = here.filter(({ repeat }) => !kept.some((one) => one.repeat === repeat));
    return { position, taken: [...kept, ...fresh].toSorted((a, b) => a.repeat - b.repeat) };
  });
}

export const nextRepeat = ({ taken }: PlaceStanding): number => Math.max(0, ...taken.map(({ repeat }) => repeat)) + 1;

/** The first position nobody has read yet and that wasn't passed over. */
export const firstOpen = (
  standings: readonly PlaceStanding[],
  passedOver: ReadonlySet<string>,
): PlaceStanding | undefined =>
  standings.find(({ position, taken }) => taken.length === 0 && !passedOver.has(position.code));

/** Values keyed in one go, parted by spaces; in inches "3 1/2" is one. */
export function valuesIn(text: string, unit: string): readonly string[] {
  const joined = unit === 'in' ? text.replace(/(\d)\s+(\d+\/\d+)/g, '$1\u00a0$2') : text;
  return joined
    .split(/[ \t]+/)
    .filter((value) => value !== '')
    .map((value) => value.replace('\u00a0', ' '));
}

export interface Filling<Value = string> {
  readonly place: PlaceStanding;
  readonly value: Value;
}

/** Several values fill the asked position and the open ones after it, in order; `over` are left without a place. */
export function fillInOrder<Value>(
  values: readonly Value[],
  at: PlaceStanding,
  standings: readonly PlaceStanding[],
): { readonly filled: readonly Filling<Value>[]; readonly over: readonly Value[] } {
  const from = standings.findIndex(({ position }) => position.code === at.position.code);
  const open = standings.slice(from + 1).filter(({ taken }) => taken.length === 0);
  const places = [at, ...open];
  return {
    filled: values.slice(0, places.length).flatMap((value, index) => {
      const place = places[index];
      return place === undefined ? [] : [{ place, value }];
    }),
    over: values.slice(places.length),
  };
}

export const findingIn = (dimension: BenchDimension, round: Round): Finding | undefined =>
  dimension.findings.find((finding) => finding.round === round && !finding.withdrawn);

/** The instrument for a position: that of its earlier repeats, else the one chosen, else the sheet's first. */
export function instrumentFor(
  bench: BenchView,
  dimension: BenchDimension,
  of: { readonly place: PlaceStanding | undefined; readonly chosen: string | undefined },
): BenchInstrument | undefined {
  const before = of.place?.taken.find(({ state }) => state !== 'refused')?.instrumentCode;
  const named = before ?? of.chosen;
  if (named !== undefined) return bench.instruments.find(({ code }) => code === named);
  return bench.instruments.find(({ code }) => code === dimension.instruments[0]);
}

const bound = (of: { readonly value: string } | null): number | null => (of === null ? null : Number(of.value));

/** The limits as the strip draws them: a side without a service limit is held to the standard. */
export function stripLimits({ limits }: BenchDimension) {
  const standard = [bound(limits.standard.low), bound(limits.standard.high)] as const;
  const [lower, upper] = [bound(limits.service.low), bound(limits.service.high)];
  return {
    ...(standard[0] === null && standard[1] === null ? {} : { standard }),
    lower: lower ?? standard[0],
    upper: upper ?? standard[1],
  };
}

const end = (text: string | null): number | null => (text === null ? null : Number(text));

/** A found value as the strip draws it. */
export function stripReading(value: FoundValue, guard: string) {
  const [low, high] = [end(value.low), end(value.high)];
  switch (value.type) {
    case 'felt':
      return null;
    case 'point':
      return low === null ? null : ({ kind: 'value', value: low, guard: Number(guard) } as const);
    case 'interval':
    case 'span':
      return { kind: 'interval', goes: low === 0 ? null : low, doesNot: high } as const;
  }
}

/** Earlier visits' findings of the dimension as ticks. */
export const earlierTicks = (dimension: BenchDimension): readonly number[] =>
  dimension.earlier.flatMap(({ value }) => {
    const low = end(value.low);
    return low === null || value.type === 'felt' ? [] : [low];
  });

/** The reading that was keyed last by this person, to be undone. */
export function lastKeyed(
  bench: BenchView,
  personId: string,
  of: { readonly round: Round; readonly entries: readonly Entry[] },
): { readonly dimension: BenchDimension; readonly position: SheetPosition; readonly taken: Taken } | undefined {
  return measuredOf(bench)
    .flatMap((dimension) =>
      standingsOf(dimension, of.round, of.entries).flatMap(({ position, taken }) =>
        taken.map((one) => ({ dimension, position, taken: one })),
      ),
    )
    .filter(({ taken }) => taken.personId === personId && taken.state !== 'refused')
    .toReversed()
    .toSorted((a, b) => (a.taken.at < b.taken.at ? 1 : a.taken.at > b.taken.at ? -1 : 0))[0];
}

import type { WearHistory } from '#contracts/engines.ts';
import { type Print, printOf, rounded, roundedDifference } from '#contracts/figures.ts';
import { predictionInterval } from '#domain/metrology/straight-line.ts';
import { type Wear, type WearLimit, type WearPoint, wearOf } from '#domain/metrology/wear.ts';
import { guardOf } from '#features/floor/service.ts';
import { hoursOf } from '#features/intake/service.ts';
import type { FindingRow, LimitsKept } from './finding-queries.ts';
import { newestOfEachVisit } from './measured.ts';

type Point = FindingRow & { readonly partMinutes: number };

const isPoint = (row: FindingRow): row is Point => row.valueType === 'point' && row.partMinutes !== null;

/** The limit that the values move towards; a side without a service limit ends at its standard bound. */
function limitAhead({ standard, service }: LimitsKept, rising: boolean): WearLimit | undefined {
  const high = service.high ?? standard.high ?? undefined;
  const low = service.low ?? standard.low ?? undefined;
  const upper = high === undefined ? undefined : ({ side: 'upper', value: high } as const);
  const lower = low === undefined ? undefined : ({ side: 'lower', value: low } as const);
  return rising ? (upper ?? lower) : (lower ?? upper);
}

const SAMPLES = 9;

const hoursText = (hours: number | null): string | null => (hours === null ? null : hours.toFixed(1));

/** The band is drawn to where the limit comes at the latest, but not beyond twice the hours that are known. */
export function lineOf(wear: Wear & { readonly ok: true }, print: Print): NonNullable<WearHistory['line']> {
  const { line, level, lastHours, hoursLeft } = wear;
  const ahead = hoursLeft.latest ?? hoursLeft.estimate ?? lastHours / 4;
  const end = Math.min(lastHours + Math.max(ahead, lastHours / 10), 2 * lastHours);
  const finer = { ...print, decimals: print.decimals + 1 };
  const band = Array.from({ length: SAMPLES }, (_, index) => {
    const hours = (end * index) / (SAMPLES - 1);
    const { expected, low, high } = predictionInterval(line, hours, level);
    const at = (value: number) => rounded(value, finer);
    return { partHours: hours.toFixed(1), expected: at(expected), low: at(low), high: at(high) };
  });
  return {
    perHundredHours: roundedDifference(line.slope * 100, finer),
    band,
    hoursLeft: {
      estimate: hoursText(hoursLeft.estimate),
      earliest: hoursText(hoursLeft.earliest),
      latest: hoursText(hoursLeft.latest),
    },
  };
}

/** One dimension of one fitted part over its hours: a point a visit, a line from three points on. */
function historyOf(points: readonly Point[]): readonly WearHistory[] {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || last.fittedPartId === null || points.length < 2) return [];
  const limit = limitAhead(last.limits, last.low >= first.low);
  const values: readonly WearPoint[] = points.map(({ partMinutes, low }) => ({ hours: partMinutes / 60, value: low }));
  const wear = limit === undefined ? undefined : wearOf(values, limit);
  return [
    {
      dimension: last.dimension,
      name: last.name,
      about: null,
      fittedPartId: last.fittedPartId,
      limit: limit === undefined ? null : { side: limit.side, value: rounded(limit.value, printOf(last)) },
      points: points.map((row) => ({
        partHours: hoursOf(row.partMinutes),
        hours: hoursOf(row.minutes),
        value: rounded(row.low, printOf(row)),
        guard: guardOf(row.guard, printOf(row)),
        jobNumber: row.jobNumber,
      })),
      line: wear?.ok ? lineOf(wear, printOf(last)) : null,
    },
  ];
}

/** Wear of what is fitted now: findings of parts that are out of the engine tell nothing of these. */
export function wearHistories(rows: readonly FindingRow[], fittedNow: ReadonlySet<string>): WearHistory[] {
  const ofFitted = rows.filter(({ fittedPartId }) => fittedPartId !== null && fittedNow.has(fittedPartId));
  const lines = new Map<string, FindingRow[]>();
  for (const row of ofFitted) {
    const key = `${row.fittedPartId} ${row.dimension}`;
    lines.set(key, [...(lines.get(key) ?? []), row]);
  }
  return [...lines.values()].flatMap((line) => historyOf(newestOfEachVisit(line).filter(isPoint)));
}

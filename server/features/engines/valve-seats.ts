import type { WearHistory } from '#contracts/engines.ts';
import { rounded } from '#contracts/figures.ts';
import { lashAndShim, recession, tightAt } from '#domain/lash/recession.ts';
import { nanometres } from '#domain/units/quantity.ts';
import { hoursOf } from '#features/intake/service.ts';
import { newestOfEachVisit } from './measured.ts';
import type { LashRow } from './valve-seat-queries.ts';
import { lineOf } from './wear.ts';

/** As fine as shims are measured. */
const print = { unit: 'mm', decimals: 3 } as const;

type Known = LashRow & { readonly shim: number; readonly high: number; readonly partMinutes: number };

const isKnown = (row: LashRow): row is Known => row.shim !== null && row.high !== null && row.partMinutes !== null;

const pointOf = ({ partMinutes, low, high, shim }: Known) => ({
  hours: partMinutes / 60,
  lash: { low: nanometres(low), high: nanometres(high) },
  shim,
});

/** One valve over the hours of its seat: lash and shim together, so that shimming does not hide what wears. */
function seatOf(rows: readonly Known[]): readonly WearHistory[] {
  const last = rows.at(-1);
  if (last === undefined || rows.length < 2) return [];
  const range = { low: nanometres(last.rangeLow), high: nanometres(last.rangeHigh) };
  const wear = recession(rows.map(pointOf), range);
  return [
    {
      dimension: last.dimension,
      name: `${last.valve}, lash and shim together`,
      about:
        'The lash and the shim that was in, added: shimming does not change it, a valve that sinks into its seat does. The limit is where the lash comes to its low end with the shim that is in.',
      fittedPartId: last.fittedPartId,
      limit: { side: 'lower', value: rounded(tightAt(range, last.shim), print) },
      points: rows.map((row) => ({
        partHours: hoursOf(row.partMinutes),
        hours: hoursOf(row.minutes),
        value: rounded(lashAndShim(pointOf(row)), print),
        guard: rounded((row.high - row.low) / 2, print),
        jobNumber: row.jobNumber,
      })),
      line: wear.ok ? lineOf(wear, print) : null,
    },
  ];
}

/** How the seats of the valves stand that are in the engine now. */
export function valveSeats(rows: readonly LashRow[], fittedNow: ReadonlySet<string>): readonly WearHistory[] {
  const lines = new Map<string, Known[]>();
  for (const row of rows.filter(isKnown)) {
    if (!fittedNow.has(row.fittedPartId)) continue;
    const key = `${row.fittedPartId} ${row.dimension}`;
    lines.set(key, [...(lines.get(key) ?? []), row]);
  }
  return [...lines.values()].flatMap((line) => seatOf(newestOfEachVisit(line)));
}

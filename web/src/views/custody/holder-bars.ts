import type { PeriodInShop } from '#contracts/custody-past.ts';

export interface Bar {
  readonly period: PeriodInShop;
  /** Where it lies on the scale, 0 to 1. */
  readonly start: number;
  readonly end: number;
}
export interface Row {
  readonly key: string;
  readonly engine: PeriodInShop['engine'];
  readonly subject: PeriodInShop['subject'];
  readonly bars: readonly Bar[];
}

/** One row an engine or tray, an engine before its trays, each holder a bar on a scale from `from` to `until`. */
export function rowsOf(
  periods: readonly PeriodInShop[],
  span: { readonly from: number; readonly until: number },
): readonly Row[] {
  const length = Math.max(1, span.until - span.from);
  const on = (instant: string | null): number =>
    Math.min(1, Math.max(0, ((instant === null ? span.until : Date.parse(instant)) - span.from) / length));
  const rows = new Map<string, Row & { bars: Bar[] }>();
  for (const period of periods) {
    const key = `${period.subject.kind} ${period.subject.id}`;
    const row = rows.get(key) ?? { key, engine: period.engine, subject: period.subject, bars: [] };
    rows.set(key, row);
    row.bars.push({ period, start: on(period.from), end: on(period.until) });
  }
  return [...rows.values()];
}

const STEPS = [15, 30, 60, 120, 240, 360, 720, 1440, 2880, 10_080].map((minutes) => minutes * 60_000);

/** Instants to rule the scale at: whole steps, about six of them. */
export function ticksOf({ from, until }: { readonly from: number; readonly until: number }): readonly number[] {
  const step = STEPS.find((each) => (until - from) / each <= 7) ?? 10_080 * 60_000;
  const ticks: number[] = [];
  for (let at = Math.ceil(from / step) * step; at < until; at += step) ticks.push(at);
  return ticks;
}

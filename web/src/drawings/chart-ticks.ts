/** Round steps of 1, 2 or 5 that cover a range with about so many ticks. */
export function ticksBetween(low: number, high: number, about: number): number[] {
  const span = high - low;
  if (!(span > 0) || !Number.isFinite(span)) return [low];
  const rough = span / Math.max(about, 1);
  const decade = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((factor) => factor * decade).find((size) => size >= rough) ?? 10 * decade;
  const first = Math.ceil(low / step - 1e-9);
  const last = Math.floor(high / step + 1e-9);
  return Array.from({ length: Math.min(Math.max(last - first + 1, 0), 50) }, (_, i) => (first + i) * step);
}

/** A coordinate for markup: rounded to a hundredth, never minus nought; what isn't a number is drawn at nought. */
export function at(value: number): number {
  return Number.isFinite(value) ? Math.round(value * 100) / 100 + 0 : 0;
}

/** A point on a circle; degrees clockwise from twelve o'clock, as the ring clock and bolt stages are read. */
export function onCircle(centre: { readonly x: number; readonly y: number }, radius: number, degrees: number) {
  const turn = (degrees * Math.PI) / 180;
  return { x: centre.x + radius * Math.sin(turn), y: centre.y - radius * Math.cos(turn) };
}

/** A straight scale from values to the page. A range of no length is drawn at the start. */
export function scaleBetween(from: number, to: number, range: readonly [number, number]) {
  const length = to - from;
  return (value: number): number =>
    length === 0 ? range[0] : range[0] + ((value - from) / length) * (range[1] - range[0]);
}

export const clamp = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high);

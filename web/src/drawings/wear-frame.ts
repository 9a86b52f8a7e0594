/** The chart's scales and edges, px. */
export type WearFrame = {
  readonly x: (hours: number) => number;
  readonly y: (value: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly hoursEnd: number;
  readonly valueRange: readonly [number, number];
};

/** An interval of lash in mm, as a feeler gauge gives it. */
export type LashInterval = readonly [from: number, to: number];

/** Where the chosen shim comes from. `text` is said in the app's words; `valve` lets an arrow be drawn. */
export type ShimSource =
  | { readonly kind: 'stays'; readonly text: string }
  | { readonly kind: 'moves'; readonly text: string; readonly valve: string }
  | { readonly kind: 'bin'; readonly text: string }
  | { readonly kind: 'buy'; readonly text: string }
  | { readonly kind: 'none'; readonly text: string };

export type LashAdjustment =
  | {
      readonly kind: 'shim';
      readonly fitted: number | null;
      readonly chosen: number | null;
      readonly after: LashInterval | null;
      readonly source: ShimSource;
    }
  | { readonly kind: 'screw'; readonly after: LashInterval | null; readonly text: string };

export type LashValve = {
  readonly id: string;
  readonly name: string;
  readonly side: 'exhaust' | 'intake';
  /** `null` while it hasn't been measured. */
  readonly lash: LashInterval | null;
  readonly out: boolean;
  readonly adjustment: LashAdjustment;
};

export const adjustmentText = (valve: LashValve): string =>
  valve.adjustment.kind === 'shim' ? valve.adjustment.source.text : valve.adjustment.text;

import type { BoreRule } from '../../../server/domain/metrology/dimension.ts';
import type { LimitFigures, Range } from '../spec-sheet.ts';

/** What tells one four-stroke single's sheet from another's. Millimetres. */
export interface FourStrokeFigures {
  readonly bore: {
    readonly nominal: number;
    readonly heights: readonly number[];
    readonly rule: BoreRule;
    readonly limits: Readonly<Record<string, LimitFigures>>;
    readonly caution: string;
  };
  readonly piston: { readonly height: number; readonly limits: Readonly<Record<string, LimitFigures>> };
  readonly clearance: LimitFigures;
  readonly ringGaps: { readonly top: LimitFigures; readonly second: LimitFigures; readonly oil: LimitFigures };
  /** Of the crank between its bearings. */
  readonly endFloat: LimitFigures;
  readonly pin: number;
  readonly stem: { readonly intake: number; readonly exhaust: number };
  readonly springFree: number;
  readonly springLoad: Range;
  readonly lift: { readonly intake: number; readonly exhaust: number; readonly base: number };
  readonly journal: number;
  readonly chain: readonly [number, number];
  /** Stretch past which the chain is renewed, per cent. */
  readonly stretch: number;
  /** Chamber with the plug in, cm³; head gasket pressed, and the piston below the cylinder's top. */
  readonly chamber: { readonly volume: number; readonly gasket: number; readonly deck: number };
  /** Head from its face to the cover's: as new, and the least. */
  readonly headHeight: readonly [number, number];
  readonly lash: { readonly intake: LimitFigures; readonly exhaust: LimitFigures };
  readonly lashAt: string;
  readonly compression: LimitFigures;
  readonly leakDown: LimitFigures;
}

export const fourValves = [
  ['in-l', 'intake left', 'intake'],
  ['in-r', 'intake right', 'intake'],
  ['ex-l', 'exhaust left', 'exhaust'],
  ['ex-r', 'exhaust right', 'exhaust'],
] as const;

import type { SectionDepth } from '#domain/section/depth.ts';
import type { Callout } from './callouts.tsx';
import type { Cooling } from './four-stroke-cylinder.tsx';
import type { Stroke } from './opening-marks.tsx';

/** All that a section is drawn from. */
export type SectionFacts = {
  readonly stroke: Stroke;
  readonly cooling: Cooling;
  readonly depth: SectionDepth;
  readonly covered: boolean;
  readonly cams: boolean;
  readonly phantom: boolean;
  /** Height on the screen in px; below 100 the compact form is drawn. */
  readonly size: number;
  readonly bore: number | undefined;
  readonly strokeLength: number | undefined;
  readonly callouts: readonly Callout[];
  readonly calloutWidth: number;
};

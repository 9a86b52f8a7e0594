import type { SectionDepth } from '#domain/section/depth.ts';
import { type DrawingWords, englishWords } from '../words.ts';
import type { Callout } from './callouts.tsx';
import { CompactSection } from './compact-section.tsx';
import type { Cooling } from './four-stroke-cylinder.tsx';
import { LargeSection } from './large-section.tsx';
import type { Stroke } from './opening-marks.tsx';
import type { SectionFacts } from './section-facts.ts';

export type SectionProps = {
  readonly stroke?: Stroke;
  readonly cooling?: Cooling;
  readonly depth?: SectionDepth;
  /** Whether an open cavity has a cloth over it; says nothing of a closed engine. */
  readonly covered?: boolean;
  /** Cams still in, at depth cover. */
  readonly cams?: boolean;
  /** Outlines of what is off. */
  readonly phantom?: boolean;
  readonly size?: number;
  /** Bore and stroke in mm give a four-stroke its proportions. */
  readonly bore?: number | undefined;
  readonly strokeLength?: number | undefined;
  readonly callouts?: readonly Callout[];
  /** Room for the callouts' lettering, px. */
  readonly calloutWidth?: number;
  /** Which engine: comes before the state in the accessible name. */
  readonly name?: string | undefined;
  /** Set where the same words stand beside it. */
  readonly decorative?: boolean;
  readonly words?: Pick<DrawingWords, 'section'>;
};

/** Below this height cut metal is drawn solid. */
const COMPACT_BELOW = 100;

/** The words for how far open the engine is, as they stand beside a small section. */
export function depthInWords(
  depth: SectionDepth,
  covered: boolean,
  words: DrawingWords['section'] = englishWords.section,
) {
  return depth === 'closed'
    ? words.depth.closed
    : `${words.depth[depth]}, ${covered ? words.covered : words.uncovered}`;
}

/** The engine cut open as far as it is: what is off is drawn off, an open cavity open, a covered one covered. */
export function Section({ name, decorative, words = englishWords, ...given }: SectionProps) {
  const facts: SectionFacts = {
    stroke: 'four-stroke',
    cooling: 'water',
    depth: 'closed',
    covered: true,
    cams: true,
    phantom: true,
    size: 160,
    callouts: [],
    calloutWidth: 190,
    ...given,
    bore: given.bore,
    strokeLength: given.strokeLength,
  };
  const kind = facts.stroke === 'two-stroke' ? words.section.twoStroke : words.section.fourStroke;
  const label = `${name ?? kind}, ${depthInWords(facts.depth, facts.covered, words.section)}`;
  return facts.size < COMPACT_BELOW ? (
    <CompactSection facts={facts} label={decorative ? undefined : label} />
  ) : (
    <LargeSection facts={facts} label={decorative ? undefined : label} />
  );
}

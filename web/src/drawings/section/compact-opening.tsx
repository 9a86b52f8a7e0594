import { isOff } from '#domain/section/depth.ts';
import { at } from '../coordinates.ts';
import type { OpenDepth } from './opening-marks.tsx';
import type { SectionFacts } from './section-facts.ts';

type Props = { readonly facts: SectionFacts };

export function CompactPhantoms({ facts }: Props) {
  const outlines =
    facts.stroke === 'two-stroke'
      ? ([
          ['head', 'M15.6 20V17L19 11H33L36.4 17V20'],
          ['cylinder', 'M12.6 22V35M39.4 22V35'],
        ] as const)
      : ([
          ['cover', 'M9.6 9V4.4Q9.6 0 14 0H38Q42.4 0 42.4 4.4V9'],
          ['head', 'M12.6 10.6V20.4M39.4 10.6V20.4'],
          ['cylinder', 'M12.6 22V35M39.4 22V35'],
        ] as const);
  // With only the cover off, cloth or wedge and the cams already fill its place.
  if (facts.depth === 'cover') return null;
  return (
    <g data-layer="phantoms">
      {outlines.map(([part, outline]) =>
        isOff(facts.depth, part) ? <path key={part} d={outline} className="phs" data-off={part} /> : null,
      )}
    </g>
  );
}

type Cloth = { readonly top: number; readonly hem: number; readonly left: number; readonly right: number };

function clothOver(depth: OpenDepth, two: boolean): Cloth {
  switch (depth) {
    case 'cover':
      return two ? { top: 36, hem: 56, left: 38, right: 63.5 } : { top: -0.4, hem: 14.4, left: 6, right: 46 };
    case 'head':
      return { top: 19.6, hem: 28.4, left: two ? 12 : 8, right: two ? 40 : 44 };
    case 'cylinder':
      return { top: 33, hem: 42, left: 8, right: 44 };
    case 'case':
      return { top: 33, hem: 54, left: 8, right: 44 };
  }
}

type Wedge = readonly [x: number, y: number, half: number];

function wedgesInto(depth: OpenDepth, two: boolean): readonly Wedge[] {
  switch (depth) {
    case 'cover':
      return two ? [[51, 46, 6.4]] : [[26, 9.8, 6.4]];
    case 'head':
      return [[26, 22.6, 6.4]];
    case 'cylinder':
      return [
        [14, 34.6, 5],
        [38, 34.6, 5],
      ];
    case 'case':
      return [[26, 43, 7]];
  }
}

/** A wedge points into an uncovered opening, a draped shape covers it: told apart without colour. */
export function CompactOpening({ facts }: Props) {
  if (facts.depth === 'closed') return null;
  const two = facts.stroke === 'two-stroke';
  if (facts.covered) {
    const { top, hem, left, right } = clothOver(facts.depth, two);
    const fold = (right - left) / 4;
    const scallops = [3, 4.5, 3, 4.5].map((drop) => `q${at(-fold / 2)} ${drop} ${at(-fold)} 0`).join('');
    const middle = at((left + right) / 2);
    return (
      <g data-layer="cloth">
        <path
          d={`M${left} ${hem}L${left + 2} ${at(top + 2)}Q${left + 3} ${top} ${left + 6} ${top}H${right - 6}Q${right - 3} ${top} ${right - 2} ${at(top + 2)}L${right} ${hem}${scallops}Z`}
          className="ragc"
        />
        <path
          d={`M${at(left + fold)} ${at(top + 4)}V${at(hem - 1)}M${middle} ${at(top + 5)}V${hem}M${at(right - fold)} ${at(top + 4)}V${at(hem - 1)}`}
          className="ragl"
        />
      </g>
    );
  }
  return (
    <g data-layer="mouth">
      {wedgesInto(facts.depth, two).map(([x, y, half]) => (
        <path key={x} d={`M${at(x - half)} ${at(y - half * 1.5)}H${at(x + half)}L${x} ${y}Z`} className="mk" />
      ))}
      {facts.depth === 'head' && !two ? <path d="M11 19.4H18V21.2H11ZM34 19.4H41V21.2H34Z" className="mk" /> : null}
    </g>
  );
}

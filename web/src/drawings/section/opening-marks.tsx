import type { SectionDepth } from '#domain/section/depth.ts';
import { at } from '../coordinates.ts';
import { fourStrokeOutlines, twoStrokeOutlines } from './outlines.ts';

export type Stroke = 'four-stroke' | 'two-stroke';
export type OpenDepth = Exclude<SectionDepth, 'closed'>;

type Drape = {
  readonly half: number;
  readonly top: number;
  readonly hem: number;
  readonly dip: number;
  readonly x?: number;
};

const drapes: Readonly<Record<Stroke, Readonly<Record<OpenDepth, Drape>>>> = {
  'four-stroke': {
    cover: { half: 84, top: -287, hem: -222, dip: -4 },
    head: { half: 76, top: -163, hem: -122, dip: 8 },
    cylinder: { half: 66, top: -94, hem: -56, dip: 12 },
    case: { half: 72, top: -93, hem: 16, dip: 14 },
  },
  'two-stroke': {
    cover: { half: 48, top: -62, hem: 30, dip: 4, x: 92 },
    head: { half: 64, top: -164, hem: -128, dip: 7 },
    cylinder: { half: 54, top: -92, hem: -60, dip: 9 },
    case: { half: 60, top: -92, hem: 10, dip: 12 },
  },
};

/** Covered: a draped cloth with folds, in its own weave. */
export function Cloth({
  stroke,
  depth,
  fill,
}: {
  readonly stroke: Stroke;
  readonly depth: OpenDepth;
  readonly fill: string;
}) {
  const { half, top, hem, dip, x = 0 } = drapes[stroke][depth];
  const fold = (2 * half) / 6;
  const scallops = [7, 11, 7, 11, 7, 11].map((drop) => `q${at(-fold / 2)} ${drop} ${at(-fold)} 0`).join('');
  const drop = hem - top;
  return (
    <g data-layer="cloth" transform={`translate(${x} 0)`}>
      <path
        d={`M${-half} ${hem}L${-half + 5} ${top + 7}Q${-half + 7} ${top} ${-half + 16} ${top - 1}Q0 ${top + dip} ${half - 16} ${top - 1}Q${half - 7} ${top} ${half - 5} ${top + 7}L${half} ${hem}${scallops}Z`}
        className="w"
        fill={fill}
      />
      <path
        d={`M${at(-half * 0.62)} ${top + 8}q5 ${at(drop * 0.5)}-4 ${at(drop * 0.82)}M${at(-half * 0.2)} ${top + 10}q-3 ${at(drop * 0.4)} 4 ${at(drop * 0.86)}M${at(half * 0.3)} ${top + 8}q6 ${at(drop * 0.5)}-1 ${at(drop * 0.84)}M${at(half * 0.72)} ${top + 9}q-4 ${at(drop * 0.4)} 2 ${at(drop * 0.8)}`}
        className="n"
      />
    </g>
  );
}

type Mouth = { readonly edge: string; readonly wedges: readonly (readonly [x: number, y: number, half: number])[] };

function mouthOf(stroke: Stroke, depth: OpenDepth, halfBore: number): Mouth {
  if (stroke === 'two-stroke') {
    const mouths: Readonly<Record<OpenDepth, Mouth>> = {
      cover: { edge: twoStrokeOutlines.gears, wedges: [[88, -40, 11]] },
      head: { edge: 'M-56-159H-27M27-159H56', wedges: [[0, -168, 11]] },
      cylinder: {
        edge: 'M-48-82H-33M33-82H48',
        wedges: [
          [-41, -88, 9],
          [41, -88, 9],
        ],
      },
      case: { edge: twoStrokeOutlines.cavity, wedges: [[0, -62, 11]] },
    };
    return mouths[depth];
  }
  const bore = at(halfBore);
  const mouths: Readonly<Record<OpenDepth, Mouth>> = {
    cover: { edge: 'M-73-250H-15M15-250H73', wedges: [[0, -262, 11]] },
    head: { edge: `M-66-157H-${bore}M${bore}-157H66`, wedges: [[0, -164, 11]] },
    cylinder: {
      edge: 'M-64-82H-50M50-82H64',
      wedges: [
        [-57, -89, 10],
        [57, -89, 10],
      ],
    },
    case: { edge: fourStrokeOutlines.cavity, wedges: [[0, -60, 11]] },
  };
  return mouths[depth];
}

type OpenMouthProps = { readonly stroke: Stroke; readonly depth: OpenDepth; readonly halfBore: number };

/** Uncovered: the open edge as the widest line and a wedge pointing in. */
export function OpenMouth({ stroke, depth, halfBore }: OpenMouthProps) {
  const { edge, wedges } = mouthOf(stroke, depth, halfBore);
  return (
    <g data-layer="mouth">
      <path d={edge} className="mo" />
      {wedges.map(([x, y, half]) => (
        <path key={x} d={`M${x - half} ${at(y - half * 1.55)}H${x + half}L${x} ${y}Z`} className="mk" />
      ))}
    </g>
  );
}

import { at } from '../coordinates.ts';
import type { Stroke } from './opening-marks.tsx';

export type CalloutPart = 'cover' | 'cams' | 'head' | 'cylinder' | 'piston' | 'opening' | 'case';

export type Callout = {
  readonly part: CalloutPart;
  readonly text: string;
  readonly note?: string;
  /** Off the engine: lettered lighter. */
  readonly off?: boolean;
};

const anchors: Readonly<Record<Stroke, Readonly<Record<CalloutPart, readonly [number, number]>>>> = {
  'four-stroke': {
    cover: [60, -285],
    cams: [62, -262],
    head: [70, -195],
    cylinder: [60, -128],
    piston: [40, -124],
    opening: [46, -76],
    case: [110, -60],
  },
  'two-stroke': {
    cover: [110, -40],
    cams: [30, -186],
    head: [40, -184],
    cylinder: [50, -140],
    piston: [25, -120],
    opening: [40, -76],
    case: [118, 6],
  },
};

/** Lettering heights: each at its part where it can be, never closer than `gap`, never below `floor`. */
export function spreadApart(wanted: readonly number[], gap: number, floor: number): number[] {
  const placed: number[] = [];
  for (const y of wanted) {
    const above = placed.at(-1);
    placed.push(above === undefined ? y : Math.max(y, above + gap));
  }
  for (let i = placed.length - 1, below = floor; i >= 0; i--) {
    const y = Math.min(placed[i] ?? below, below);
    placed[i] = y;
    below = y - gap;
  }
  return placed;
}

type Props = {
  readonly callouts: readonly Callout[];
  readonly stroke: Stroke;
  /** Where the lettering starts, and the lowest line it may stand on, in mm. */
  readonly x: number;
  readonly floor: number;
  /** mm per px: lettering keeps its size on the screen. */
  readonly scale: number;
};

export function Callouts({ callouts, stroke, x, floor, scale }: Props) {
  const sorted = callouts
    .map((callout) => ({ callout, anchor: anchors[stroke][callout.part] }))
    .sort((a, b) => a.anchor[1] - b.anchor[1]);
  const heights = spreadApart(
    sorted.map(({ anchor }) => anchor[1]),
    40 * scale,
    floor,
  );
  return (
    <g data-layer="callouts">
      {sorted.map(({ callout, anchor: [ax, ay] }, i) => {
        const y = at(heights[i] ?? ay);
        return (
          <g key={`${callout.part}${callout.text}`}>
            <path d={`M${ax} ${ay}L${x - 8} ${y}H${x}`} className="n" />
            <circle cx={ax} cy={ay} r={1.8} className="f-ink" />
            <text x={x + 4} y={at(y + 4 * scale)} fontSize={at(13 * scale)} className={callout.off ? 'off' : 'strong'}>
              {callout.text}
            </text>
            {callout.note === undefined ? null : (
              <text x={x + 4} y={at(y + 19 * scale)} fontSize={at(12 * scale)} className="off">
                {callout.note}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

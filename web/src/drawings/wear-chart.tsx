import { useId } from 'react';
import { at, scaleBetween } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { fillWith, Hatch } from './hatch.tsx';
import { type FormatNumber, plainNumber } from './number-format.ts';
import { WearAxes } from './wear-axes.tsx';
import type { WearFrame } from './wear-frame.ts';
import { WearReach } from './wear-reach.tsx';
import { type DrawingWords, englishWords } from './words.ts';

export type WearPoint = { readonly hours: number; readonly value: number; readonly guard: number };
export type WearBand = { readonly hours: number; readonly low: number; readonly high: number };

export type WearChartProps = {
  readonly points: readonly WearPoint[];
  readonly limit: number;
  /** The fitted straight line at two places, and the prediction band along the hours: worked out elsewhere. */
  readonly line?: readonly [{ hours: number; value: number }, { hours: number; value: number }] | null;
  readonly band?: readonly WearBand[];
  /** Engine hours at which the band's near and far edge reach the limit. */
  readonly reach?: { readonly earliest: number; readonly latest: number } | null;
  readonly decimals?: number;
  readonly format?: FormatNumber;
  readonly width?: number;
  readonly height?: number;
  readonly words?: Pick<DrawingWords, 'wear'>;
};

function frameOf(props: WearChartProps, width: number, height: number): WearFrame {
  const [left, right, top, bottom] = [64, width - 14, 22, height - 44];
  const hours = props.points.map((point) => point.hours);
  const hoursEnd = Math.max(...hours, props.reach?.latest ?? 0, 1) * 1.08;
  const values = [props.limit, ...props.points.flatMap(({ value, guard }) => [value - guard, value + guard])];
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const pad = (most - least || Math.abs(most) * 0.01 || 1) * 0.16;
  const valueRange = [least - pad, most + pad] as const;
  return {
    x: scaleBetween(0, hoursEnd, [left, right]),
    y: scaleBetween(valueRange[0], valueRange[1], [bottom, top]),
    left,
    right,
    top,
    bottom,
    hoursEnd,
    valueRange,
  };
}

function Band({
  band,
  frame,
  pattern,
}: {
  readonly band: readonly WearBand[];
  readonly frame: WearFrame;
  readonly pattern: string;
}) {
  if (band.length < 2) return null;
  const edge = (side: 'low' | 'high', points: readonly WearBand[]) =>
    points.map((point) => `${at(frame.x(point.hours))} ${at(frame.y(point[side]))}`).join('L');
  return (
    <g data-layer="band">
      <path d={`M${edge('high', band)}L${edge('low', [...band].reverse())}Z`} fill={fillWith(pattern)} />
      <path d={`M${edge('high', band)}M${edge('low', band)}`} className="n" />
    </g>
  );
}

/** The line is solid as far as it was measured, dashed beyond. */
function FittedLine({
  line,
  last,
  frame,
}: {
  readonly line: NonNullable<WearChartProps['line']>;
  readonly last: number;
  readonly frame: WearFrame;
}) {
  const [a, b] = line;
  const along = (hours: number) =>
    b.hours === a.hours ? a.value : a.value + ((b.value - a.value) * (hours - a.hours)) / (b.hours - a.hours);
  const place = (hours: number) => `${at(frame.x(hours))} ${at(frame.y(along(hours)))}`;
  return (
    <g data-layer="line">
      <path d={`M${place(Math.min(a.hours, b.hours))}L${place(last)}`} className="w" />
      <path d={`M${place(last)}L${place(frame.hoursEnd)}`} className="hidw" />
    </g>
  );
}

/** One part's readings over the hours, its service limit, and when the fitted wear reaches it. */
export function WearChart(props: WearChartProps) {
  const { points, limit, line = null, band = [], reach = null, decimals = 3, format = plainNumber } = props;
  const { width = 560, height = 300, words = englishWords } = props;
  const id = useId();
  const frame = frameOf(props, width, height);
  const letter = (value: number) => format(value, decimals);
  const last = Math.max(0, ...points.map((point) => point.hours));
  const left =
    reach === null
      ? null
      : words.wear.left(Math.max(0, Math.round(reach.earliest - last)), Math.max(0, Math.round(reach.latest - last)));
  return (
    <Drawing
      className="wear"
      label={words.wear.chart(letter(limit), left)}
      viewBox={[0, 0, width, height]}
      width={width}
      height={height}
    >
      <defs>
        <Hatch id={`${id}band`} pitch={5} line={0.5} />
        <clipPath id={`${id}frame`}>
          <rect x={frame.left} y={frame.top} width={frame.right - frame.left} height={frame.bottom - frame.top} />
        </clipPath>
      </defs>
      <g clipPath={fillWith(`${id}frame`)}>
        <Band band={band} frame={frame} pattern={`${id}band`} />
        {line === null ? null : <FittedLine line={line} last={last} frame={frame} />}
      </g>
      <WearAxes frame={frame} limit={limit} letter={letter} words={words.wear} />
      {points.map(({ hours, value, guard }) => {
        const [x, low, high] = [at(frame.x(hours)), at(frame.y(value - guard)), at(frame.y(value + guard))];
        return (
          <g key={hours}>
            <path d={`M${x} ${low}V${high}M${at(x - 4)} ${low}h8M${at(x - 4)} ${high}h8`} className="wh" />
            <circle cx={x} cy={at(frame.y(value))} r={4} className="f-ink" data-mark="reading" />
          </g>
        );
      })}
      {reach === null || left === null ? null : <WearReach frame={frame} limit={limit} reach={reach} text={left} />}
    </Drawing>
  );
}

import { useId } from 'react';
import { ticksBetween } from './chart-ticks.ts';
import { at, clamp, scaleBetween } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { fillWith, Hatch } from './hatch.tsx';
import { type FormatNumber, plainNumber } from './number-format.ts';

export type HistogramProps = {
  /** Trials in bins of one width between two values, in the order of the scale. */
  readonly bins: { readonly low: number; readonly high: number; readonly counts: readonly number[] };
  readonly trials: number;
  /** The normal curve beside it; null: none is taken for granted. */
  readonly curve: { readonly mean: number; readonly sd: number } | null;
  /** 95 of 100 trials, drawn as a dimension under the scale. */
  readonly interval: { readonly low: number; readonly high: number; readonly text: string };
  readonly limits: readonly { readonly value: number; readonly text: string }[];
  readonly label: string;
  readonly unit: string;
  readonly format?: FormatNumber;
  readonly width?: number;
  readonly height?: number;
};

type Frame = {
  readonly x: (value: number) => number;
  readonly y: (share: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly from: number;
  readonly to: number;
};

const steps = 96;
const density = (z: number): number => Math.exp(-z * z * 0.5) / Math.sqrt(2 * Math.PI);

/** The scale holds all bins, the curve to three u, and a limit that lies no further off than they are wide. */
function rangeOf({ bins, curve, limits }: HistogramProps): readonly [number, number] {
  const reach = curve === null ? [] : [curve.mean - 3 * curve.sd, curve.mean + 3 * curve.sd];
  const [low, high] = [Math.min(bins.low, ...reach), Math.max(bins.high, ...reach)];
  const span = high - low || Math.abs(high) * 0.001 || 1;
  const near = limits.map(({ value }) => value).filter((value) => value > low - span && value < high + span);
  const [from, to] = [Math.min(low, ...near), Math.max(high, ...near)];
  const pad = (to - from || span) * 0.06;
  return [from - pad, to + pad];
}

function frameOf(props: HistogramProps, width: number, height: number): Frame {
  const [from, to] = rangeOf(props);
  const [left, right, top, bottom] = [14, width - 14, 40, height - 62];
  const binWidth = (props.bins.high - props.bins.low) / props.bins.counts.length;
  const peak = props.curve === null || props.curve.sd === 0 ? 0 : (density(0) * binWidth) / props.curve.sd;
  const most = Math.max(peak, ...props.bins.counts.map((count) => count / props.trials));
  return {
    x: scaleBetween(from, to, [left, right]),
    y: scaleBetween(0, most, [bottom, top]),
    left,
    right,
    top,
    bottom,
    from,
    to,
  };
}

/** One outline around all bins: what lies under it is hatched, as a cut surface is. */
function outline({ bins, trials }: HistogramProps, { x, y, bottom }: Frame): string {
  const width = (bins.high - bins.low) / bins.counts.length;
  if (width === 0) return `M${at(x(bins.low))} ${bottom}V${at(y(1))}`;
  const tops = bins.counts.map((count, index) => `V${at(y(count / trials))}H${at(x(bins.low + (index + 1) * width))}`);
  return `M${at(x(bins.low))} ${bottom}${tops.join('')}V${bottom}`;
}

function curvePath({ bins, curve }: HistogramProps, { x, y, from, to }: Frame): string | null {
  const width = (bins.high - bins.low) / bins.counts.length;
  if (curve === null || curve.sd === 0 || width === 0) return null;
  const points = Array.from({ length: steps + 1 }, (_, step) => {
    const value = from + ((to - from) * step) / steps;
    return `${at(x(value))} ${at(y((density((value - curve.mean) / curve.sd) * width) / curve.sd))}`;
  });
  return `M${points.join('L')}`;
}

function Limits({ limits, frame }: { readonly limits: HistogramProps['limits']; readonly frame: Frame }) {
  const { x, left, right, top, bottom, from, to } = frame;
  return limits.map(({ value, text }) => {
    const beyond = value < from ? 'below' : value > to ? 'above' : null;
    const place = clamp(x(value), left, right);
    const anchor = place > (left + right) / 2 ? 'end' : 'start';
    return (
      <g key={text} data-mark="limit">
        {beyond === null ? (
          <path d={`M${at(place)} ${top - 16}V${bottom}`} className="lim" />
        ) : (
          <path
            d={beyond === 'above' ? `M${right} ${top - 12}l-9 -5v10Z` : `M${left} ${top - 12}l9 -5v10Z`}
            className="f-ink"
          />
        )}
        <text
          x={at(place + (beyond === null ? 0 : anchor === 'end' ? -14 : 14))}
          y={top - (beyond === null ? 22 : 8)}
          textAnchor={anchor}
          className="tn b bgp"
        >
          {text}
        </text>
      </g>
    );
  });
}

/** Where 95 of 100 lie, as a drawing gives a dimension: extension lines, arrows, the figure between. */
function Between({ interval, frame }: { readonly interval: HistogramProps['interval']; readonly frame: Frame }) {
  const { x, left, right, bottom } = frame;
  const [a, b] = [at(clamp(x(interval.low), left, right)), at(clamp(x(interval.high), left, right))];
  const y = bottom + 36;
  const middle = clamp((a + b) / 2, left + 110, right - 110);
  return (
    <g data-mark="interval">
      <path d={`M${a} ${bottom}V${y + 4}M${b} ${bottom}V${y + 4}M${a} ${y}H${b}`} className="n" />
      <path d={`M${a} ${y}l8 -2.6v5.2ZM${b} ${y}l-8 -2.6v5.2Z`} className="f-ink" />
      <text x={at(middle)} y={y + 20} textAnchor="middle" className="tn bgp">
        {interval.text}
      </text>
    </g>
  );
}

const decimalsOf = (ticks: readonly number[]): number => {
  const step = (ticks[1] ?? 0) - (ticks[0] ?? 0);
  return step > 0 ? clamp(Math.ceil(-Math.log10(step) - 1e-9), 0, 9) : 3;
};

/** Many drawn values of one quantity, hatched; the normal curve over them, the limits, and where 95 of 100 lie. */
export function Histogram(props: HistogramProps) {
  const { interval, limits, label, unit, format = plainNumber, width = 560, height = 260 } = props;
  const id = useId();
  const frame = frameOf(props, width, height);
  const { x, left, right, bottom, from, to } = frame;
  const ticks = ticksBetween(from, to, (right - left) / 84);
  const decimals = decimalsOf(ticks);
  const path = outline(props, frame);
  const curve = curvePath(props, frame);
  return (
    <Drawing className="drawn" label={label} viewBox={[0, 0, width, height]} width={width} height={height}>
      <defs>
        <Hatch id={`${id}bins`} pitch={6} line={0.6} />
      </defs>
      <path d={`${path}Z`} fill={fillWith(`${id}bins`)} data-layer="bins" />
      <path d={path} className="n" />
      {curve === null ? null : <path d={curve} className="w" data-layer="curve" />}
      <path d={`M${left} ${bottom}H${right}`} className="n" />
      {ticks.map((tick) => (
        <g key={tick}>
          <path d={`M${at(x(tick))} ${bottom}v5`} className="n" />
          <text x={at(x(tick))} y={bottom + 19} textAnchor="middle" className="tn">
            {format(tick, decimals)}
          </text>
        </g>
      ))}
      <text x={right} y={bottom - 6} textAnchor="end" className="tx2 bgp">
        {unit}
      </text>
      <Between interval={interval} frame={frame} />
      <Limits limits={limits} frame={frame} />
    </Drawing>
  );
}

import { at } from './coordinates.ts';
import type { LimitAxis, StripReading } from './limit-axis.ts';
import type { StripScale } from './strip-bands.tsx';

type Props = {
  readonly reading: StripReading;
  readonly axis: LimitAxis;
  readonly scale: StripScale;
  readonly hot: boolean;
};

/** A reading with no number in it isn't drawn: the strip then says that nothing was measured. */
export function isDrawable(reading: StripReading): boolean {
  const fits = (value: number | null) => value === null || Number.isFinite(value);
  return reading.kind === 'value'
    ? Number.isFinite(reading.value) && Number.isFinite(reading.guard)
    : fits(reading.goes) && fits(reading.doesNot) && (reading.goes !== null || reading.doesNot !== null);
}

/** Where the reading's lettering stands. */
export function readingPlace(reading: StripReading, axis: LimitAxis, place: (value: number) => number): number {
  if (axis.offScale !== null) return place(axis.offScale === 'high' ? axis.high : axis.low);
  if (reading.kind === 'value') return place(reading.value);
  const goes = reading.goes ?? axis.low;
  const doesNot = reading.doesNot ?? axis.high;
  return place((goes + doesNot) / 2);
}

function IntervalBar({ reading, axis, scale, hot }: Props & { readonly reading: StripReading & { kind: 'interval' } }) {
  const { place, middle } = scale;
  const from = at(place(Math.max(reading.goes ?? axis.low, axis.low)));
  const to = at(place(Math.min(reading.doesNot ?? axis.high, axis.high)));
  return (
    <rect
      x={from}
      y={middle - 6}
      width={at(Math.max(to - from, 2))}
      height={12}
      className={hot ? 'go hot' : 'go'}
      data-mark="reading"
    />
  );
}

/** Diamond and whisker for a value and its guard band; solid bar for a feeler interval; arrow for one off the scale. */
export function StripMark({ reading, axis, scale, hot }: Props) {
  const { place, middle } = scale;
  const heat = hot ? ' hot' : '';
  if (axis.offScale !== null) {
    const x = at(place(axis.offScale === 'high' ? axis.high : axis.low));
    const back = axis.offScale === 'high' ? -1 : 1;
    return (
      <path
        d={`M${x} ${middle}l${12 * back} -7v14Z`}
        className={`rd${heat}`}
        data-mark="reading"
        data-off-scale={axis.offScale}
      />
    );
  }
  if (reading.kind === 'interval') return <IntervalBar reading={reading} axis={axis} scale={scale} hot={hot} />;
  const x = at(place(reading.value));
  const [a, b] = [at(place(reading.value - reading.guard)), at(place(reading.value + reading.guard))];
  const whisker = `M${a} ${middle}H${b}M${a} ${middle - 5}V${middle + 5}M${b} ${middle - 5}V${middle + 5}`;
  return (
    <>
      <path d={whisker} className="halo" />
      <path d={whisker} className={`wh${heat}`} data-mark="guard" />
      <path
        d={`M${x} ${middle - 7}L${at(x + 5.5)} ${middle}L${x} ${middle + 7}L${at(x - 5.5)} ${middle}Z`}
        className={`rd${heat}`}
        data-mark="reading"
      />
    </>
  );
}

import { at, clamp } from './coordinates.ts';
import type { LimitAxis, LimitFacts, StripReading } from './limit-axis.ts';
import type { StripScale } from './strip-bands.tsx';
import { readingPlace } from './strip-mark.tsx';

type Label = { readonly x: number; readonly text: string; readonly limit: boolean };

/** Mean advance of a figure in the lettering's size, px. */
const ADVANCE = 6.8;

/** Figures that would touch drop to a second row. */
export function rowsOf(labels: readonly Label[], width: number) {
  const ends = [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY];
  return [...labels]
    .sort((a, b) => a.x - b.x)
    .map((label) => {
      const half = (label.text.length * ADVANCE) / 2;
      const x = clamp(label.x, half, Math.max(half, width - half));
      const row = x - half >= (ends[0] ?? 0) + 6 ? 0 : 1;
      ends[row] = x + half;
      return { ...label, x: at(x), row };
    });
}

type Props = {
  readonly facts: LimitFacts;
  readonly axis: LimitAxis;
  readonly scale: StripScale;
  readonly letter: (value: number) => string;
  readonly reading: StripReading | null;
  readonly text: string;
  readonly hot: boolean;
};

export function StripLettering({ facts, axis, scale, letter, reading, text, hot }: Props) {
  const { place, middle, width } = scale;
  const limits = [facts.lower, facts.upper].filter((limit): limit is number => limit !== null && limit !== undefined);
  const standard: readonly (number | null)[] = facts.standard ?? [];
  const ends = standard
    .filter((end) => end !== null)
    .filter((end) => end > axis.low && end < axis.high && !limits.includes(end));
  const labels = [
    ...ends.map((value) => ({ x: place(value), text: letter(value), limit: false })),
    ...limits.map((value) => ({ x: place(value), text: letter(value), limit: true })),
  ];
  const half = (text.length * ADVANCE) / 2 + 2;
  return (
    <>
      {rowsOf(labels, width).map(({ x, text: figure, limit, row }) => (
        <text
          key={`${figure}${limit}`}
          x={x}
          y={middle + 27 + row * 14}
          textAnchor="middle"
          className={limit ? 'tn b' : 'tn'}
        >
          {figure}
        </text>
      ))}
      {reading === null ? null : (
        <text
          x={at(clamp(readingPlace(reading, axis, place), half, Math.max(half, width - half)))}
          y={middle - 19}
          textAnchor="middle"
          className={hot ? 'tn b rdg hot' : 'tn b rdg'}
        >
          {text}
        </text>
      )}
    </>
  );
}

import { ticksBetween } from './chart-ticks.ts';
import { at } from './coordinates.ts';
import { type FormatNumber, plainNumber } from './number-format.ts';

/** The scales and edges of a curve over degrees, px. */
export type DegreeFrame = {
  readonly x: (degrees: number) => number;
  readonly y: (value: number) => number;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
  readonly degrees: readonly [number, number];
  readonly values: readonly [number, number];
};

/** A polyline through points of a curve. */
export const curve = (frame: DegreeFrame, points: readonly (readonly [degrees: number, value: number])[]): string =>
  points
    .map(([degrees, value], index) => `${index === 0 ? 'M' : 'L'}${at(frame.x(degrees))} ${at(frame.y(value))}`)
    .join('');

const decimalsOf = (step: number) => Math.max(0, -Math.floor(Math.log10(step) + 1e-9));

/** Ticks at whole parts of a turn: 5, 10, 15, 30, 45 or 90 degrees apart. */
export function degreeTicks(from: number, to: number, about: number): number[] {
  const step = [5, 10, 15, 30, 45, 90].find((size) => (to - from) / size <= about) ?? 90;
  const first = Math.ceil(from / step);
  return Array.from({ length: Math.floor(to / step) - first + 1 }, (_, index) => (first + index) * step);
}

type Props = {
  readonly frame: DegreeFrame;
  readonly name: string;
  /** Degrees are lettered below this panel. */
  readonly lettered: boolean;
  readonly degreesName: string;
  readonly format?: FormatNumber;
};

/** Axes, ticks and a line at nought where the curve crosses it. */
export function DegreeAxes({ frame, name, lettered, degreesName, format = plainNumber }: Props) {
  const { x, y, left, right, top, bottom, degrees, values } = frame;
  const rows = ticksBetween(values[0], values[1], (bottom - top) / 24);
  const columns = degreeTicks(degrees[0], degrees[1], (right - left) / 52);
  const step = rows.length > 1 ? (rows[1] ?? 0) - (rows[0] ?? 0) : 1;
  return (
    <g data-layer="axes">
      <path d={`M${left} ${top}V${bottom}H${right}`} className="n" />
      {columns.map((degree) => (
        <path key={degree} d={`M${at(x(degree))} ${top}V${bottom}`} className="dots faint" />
      ))}
      {values[0] < 0 && values[1] > 0 ? <path d={`M${left} ${at(y(0))}H${right}`} className="n" /> : null}
      {rows.map((value) => (
        <g key={value}>
          <path d={`M${left - 5} ${at(y(value))}H${left}`} className="n" />
          <text x={left - 8} y={at(y(value) + 4)} textAnchor="end" className="tn">
            {format(value, decimalsOf(step))}
          </text>
        </g>
      ))}
      <text x={left} y={top - 7} className="tx2">
        {name}
      </text>
      {lettered ? (
        <>
          {columns.map((degree) => (
            <text key={degree} x={at(x(degree))} y={bottom + 17} textAnchor="middle" className="tn">
              {format(degree, 0)}
            </text>
          ))}
          <text x={right} y={bottom + 35} textAnchor="end" className="tx2">
            {degreesName}
          </text>
        </>
      ) : null}
    </g>
  );
}

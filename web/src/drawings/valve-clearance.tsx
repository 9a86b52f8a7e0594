import { useId } from 'react';
import { at, scaleBetween } from './coordinates.ts';
import { curve, DegreeAxes, type DegreeFrame } from './degree-frame.tsx';
import { Drawing } from './drawing.tsx';
import { fillWith, Hatch } from './hatch.tsx';
import type { FormatNumber } from './number-format.ts';

export type ValveClearanceProps = {
  readonly label: string;
  /** Where piston and valve are along the valve's axis from the shut valve's face, mm, at each angle. */
  readonly points: readonly { readonly degrees: number; readonly piston: number; readonly valve: number }[];
  readonly least: { readonly degrees: number; readonly piston: number; readonly valve: number; readonly text: string };
  readonly names: { readonly piston: string; readonly valve: string; readonly along: string; readonly degrees: string };
  readonly format?: FormatNumber;
};

const [WIDTH, HEIGHT, LEFT, TOP, BOTTOM] = [560, 392, 58, 22, 344];

/** Valve and piston over the degrees: the valve comes down, the piston stands below; the narrowest place is told. */
export function ValveClearance({ label, points, least, names, format }: ValveClearanceProps) {
  const id = useId();
  const degrees = points.map((point) => point.degrees);
  const deepest = Math.max(...points.map(({ valve }) => valve), least.piston) * 1.35 + 1;
  const frame: DegreeFrame = {
    x: scaleBetween(Math.min(...degrees), Math.max(...degrees), [LEFT, WIDTH - 10]),
    y: scaleBetween(0, deepest, [TOP, BOTTOM]),
    left: LEFT,
    right: WIDTH - 10,
    top: TOP,
    bottom: BOTTOM,
    degrees: [Math.min(...degrees), Math.max(...degrees)],
    values: [0, deepest],
  };
  const valve = points.map((point) => [point.degrees, point.valve] as const);
  const piston = points.map((point) => [point.degrees, point.piston] as const);
  const meets = least.piston <= least.valve;
  const x = at(frame.x(least.degrees));
  const [from, to] = [at(frame.y(least.valve)), at(frame.y(least.piston))];
  const onRight = frame.x(least.degrees) < WIDTH * 0.62;
  return (
    <Drawing label={label} viewBox={[0, 0, WIDTH, HEIGHT]} width={WIDTH} height={HEIGHT}>
      <defs>
        <Hatch id={`${id}valve`} pitch={7} line={0.6} />
        <Hatch id={`${id}piston`} pitch={7} angle={-45} line={0.6} />
        <clipPath id={`${id}frame`}>
          <rect x={LEFT} y={TOP} width={WIDTH - 10 - LEFT} height={BOTTOM - TOP} />
        </clipPath>
      </defs>
      <g clipPath={fillWith(`${id}frame`)}>
        <path
          d={`${curve(frame, valve)}L${at(frame.x(frame.degrees[1]))} ${TOP}L${at(frame.x(frame.degrees[0]))} ${TOP}Z`}
          fill={fillWith(`${id}valve`)}
        />
        <path
          d={`${curve(frame, piston)}L${at(frame.x(frame.degrees[1]))} ${BOTTOM}L${at(frame.x(frame.degrees[0]))} ${BOTTOM}Z`}
          fill={fillWith(`${id}piston`)}
        />
        <path d={curve(frame, valve)} className="w" data-curve="valve" />
        <path d={curve(frame, piston)} className="w" data-curve="piston" />
      </g>
      <DegreeAxes
        frame={frame}
        name={names.along}
        lettered
        degreesName={names.degrees}
        {...(format === undefined ? {} : { format })}
      />
      <text x={WIDTH - 18} y={TOP + 20} textAnchor="end" className="tx bgp">
        {names.valve}
      </text>
      <text x={WIDTH - 18} y={BOTTOM - 10} textAnchor="end" className="tx bgp">
        {names.piston}
      </text>
      <path
        d={`M${x} ${from}V${to}M${x - 7} ${from}h14M${x - 7} ${to}h14`}
        className={meets ? 'wh hot' : 'wh'}
        data-mark="least"
      />
      <text
        x={onRight ? x + 12 : x - 12}
        y={at((from + to) / 2 + 5)}
        textAnchor={onRight ? 'start' : 'end'}
        className={meets ? 'tn b big bgp hot' : 'tn b big bgp'}
      >
        {least.text}
      </text>
    </Drawing>
  );
}

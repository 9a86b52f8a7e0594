import { useId } from 'react';
import { at, onCircle } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { fillWith, Hatch } from './hatch.tsx';

/** A time that something is open: degrees clockwise from top dead centre, `from` before `to`. */
export type TimingArc = {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  /** The middle of it, where that is told: a lobe's centre. */
  readonly centre?: number | null;
  /** What stands at its two ends, as it is read: 32° before top. */
  readonly ends: readonly [string, string];
};

export type TimingCircleProps = {
  readonly label: string;
  readonly arcs: readonly TimingArc[];
  /** A share of the turn that is hatched: overlap, blowdown. */
  readonly hatched: readonly { readonly from: number; readonly to: number; readonly name: string }[];
  readonly top: string;
  readonly bottom: string;
};

const [C, OUTER, STEP] = [180, 138, 30];
const centre = { x: C, y: C };
const place = (degrees: number, radius: number) => {
  const { x, y } = onCircle(centre, radius, degrees);
  return `${at(x)} ${at(y)}`;
};
const isWide = (from: number, to: number) => (to - from > 180 ? 1 : 0);

/** The arc as seen by the crank: clockwise from where it begins, an arrow at its end. */
function Arc({ arc, radius }: { readonly arc: TimingArc; readonly radius: number }) {
  const { from, to } = arc;
  const back = (6 * 138) / radius;
  return (
    <g data-arc={arc.name}>
      <path
        d={`M${place(from, radius)}A${radius} ${radius} 0 ${isWide(from, to)} 1 ${place(to, radius)}`}
        className="x"
      />
      <path d={`M${place(from, radius - 8)}L${place(from, radius + 8)}`} className="w" />
      <path
        d={`M${place(to, radius)}L${place(to - back, radius - 6)}L${place(to - back, radius + 6)}Z`}
        className="f-ink"
        data-end
      />
      {arc.centre === undefined || arc.centre === null ? null : (
        <path d={`M${place(arc.centre, 18)}L${place(arc.centre, radius + 10)}`} className="cl" />
      )}
    </g>
  );
}

type Letter = { readonly degrees: number; readonly text: string };

/** Ends that lie close together are lettered apart, each on its own side of the centre line. */
function Lettering({ letters }: { readonly letters: readonly Letter[] }) {
  return (
    <>
      {letters.map(({ degrees, text }) => {
        const { x, y } = onCircle(centre, OUTER + 22, degrees);
        const side = Math.abs(x - C) < 6 ? 'middle' : x > C ? 'start' : 'end';
        return (
          <text key={`${degrees} ${text}`} x={at(x)} y={at(y + 4)} textAnchor={side} className="tn b bgp">
            {text}
          </text>
        );
      })}
    </>
  );
}

/** One turn of the crank as a circle, top dead centre above: what is open from where to where, and where both are. */
export function TimingCircle({ label, arcs, hatched, top, bottom }: TimingCircleProps) {
  const id = useId();
  const letters = arcs.flatMap(({ from, to, ends }) => [
    { degrees: from, text: ends[0] },
    { degrees: to, text: ends[1] },
  ]);
  return (
    <Drawing className="timing" label={label} viewBox={[-50, 0, 460, 360]} width={460} height={360}>
      <defs>
        <Hatch id={`${id}both`} pitch={6} line={0.7} />
      </defs>
      {hatched.map(({ from, to, name }) => (
        <path
          key={name}
          d={`M${C} ${C}L${place(from, OUTER)}A${OUTER} ${OUTER} 0 ${isWide(from, to)} 1 ${place(to, OUTER)}Z`}
          className="n"
          fill={fillWith(`${id}both`)}
          data-hatched={name}
        />
      ))}
      <circle cx={C} cy={C} r={OUTER} className="n" />
      <path d={`M${C} ${C - OUTER - 10}V${C + OUTER + 10}M${C - OUTER - 10} ${C}H${C + OUTER + 10}`} className="cl" />
      <circle cx={C} cy={C} r={4} className="f-ink" />
      {arcs.map((arc, index) => (
        <Arc key={arc.name} arc={arc} radius={OUTER - 18 - index * STEP} />
      ))}
      <Lettering letters={letters} />
      <text x={C} y={C - OUTER - 18} textAnchor="middle" className="tx">
        {top}
      </text>
      <text x={C} y={C + OUTER + 28} textAnchor="middle" className="tx">
        {bottom}
      </text>
      {arcs.map((arc, index) => (
        <ArcName key={arc.name} arc={arc} radius={OUTER - 18 - index * STEP} />
      ))}
      {hatched.map(({ from, to, name }) => {
        const { x, y } = onCircle(centre, 62, (from + to) / 2);
        return (
          <text key={name} x={at(x)} y={at(y + 4)} textAnchor="middle" className="tn b bgp">
            {name}
          </text>
        );
      })}
    </Drawing>
  );
}

/** Written on the arc at the height of the crank's axis, where no end lies. */
function ArcName({ arc, radius }: { readonly arc: TimingArc; readonly radius: number }) {
  const middle = arc.centre ?? (arc.from + arc.to) / 2;
  const { x, y } = onCircle(centre, radius, middle + 14);
  return (
    <text x={at(x)} y={at(y + 4)} textAnchor="middle" className="tx bgp">
      {arc.name}
    </text>
  );
}

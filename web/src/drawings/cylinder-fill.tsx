import { useId } from 'react';
import { at } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { fillWith, Hatch } from './hatch.tsx';

export type CylinderFillProps = {
  readonly label: string;
  /** Bore and stroke, mm, for the drawing's proportions. */
  readonly bore: number;
  readonly stroke: number;
  /** Below zero: the piston stands proud; null: not told. */
  readonly squish: number | null;
  /** Where the piston is when the intake closes, mm below top; null: not told. */
  readonly closing: number | null;
  readonly lettered: {
    readonly bore: string;
    readonly stroke: string;
    readonly squish: string | null;
    readonly closing: string | null;
  };
};

const [WIDTH, WALL, TOP, MOST] = [440, 26, 84, 210];

/** Arrow heads at both ends of a dimension, upright or level. */
const arrows = (x: number, from: number, to: number) =>
  `M${x} ${from}V${to}M${x - 3.5} ${from + 9}L${x} ${from}L${x + 3.5} ${from + 9}M${x - 3.5} ${to - 9}L${x} ${to}L${x + 3.5} ${to - 9}`;

/** A cylinder in section at top dead centre: bore, stroke, squish, and how far down the piston is when the intake closes. */
export function CylinderFill({ label, bore, stroke, squish, closing, lettered }: CylinderFillProps) {
  const id = useId();
  const scale = Math.min(MOST / bore, MOST / stroke);
  const [wide, deep] = [at(bore * scale), at(stroke * scale)];
  const left = at((WIDTH - 70) / 2 - wide / 2);
  const right = at(left + wide);
  // Squish is tenths of a millimetre: drawn six times as large so that it is seen.
  const gap = squish === null ? 5 : at(Math.max(-8, Math.min(22, squish * scale * 6)));
  const crown = TOP + gap;
  const height = at(Math.min(deep * 0.75, 120));
  const bottom = TOP + deep + height + 18;
  return (
    <Drawing label={label} viewBox={[0, 0, WIDTH, bottom + 44]} width={WIDTH} height={bottom + 44}>
      <defs>
        <Hatch id={`${id}wall`} pitch={7} line={0.8} />
        <Hatch id={`${id}head`} pitch={7} angle={-45} line={0.8} />
        <Hatch id={`${id}piston`} pitch={5} line={0.7} />
      </defs>
      <path
        d={`M${left - WALL} ${TOP}V30H${right + WALL}V${TOP}H${right - wide * 0.16}C${right - wide * 0.2} ${TOP - 34} ${left + wide * 0.2} ${TOP - 34} ${left + wide * 0.16} ${TOP}Z`}
        className="w"
        fill={fillWith(`${id}head`)}
        data-part="head"
      />
      {[left - WALL, right].map((x) => (
        <rect key={x} x={x} y={TOP} width={WALL} height={bottom - TOP} className="w" fill={fillWith(`${id}wall`)} />
      ))}
      <path
        d={`M${left + 2} ${crown}H${right - 2}V${crown + height}H${right - wide * 0.22}V${crown + height * 0.4}H${left + wide * 0.22}V${crown + height}H${left + 2}Z`}
        className="w"
        fill={fillWith(`${id}piston`)}
        data-part="piston"
      />
      <path d={`M${left + 2} ${crown + deep}H${right - 2}`} className="ph" />
      {closing === null ? null : (
        <path d={`M${left + 2} ${at(crown + closing * scale)}H${right - 2}`} className="hidw" data-mark="closing" />
      )}
      <path d={`M${at((left + right) / 2)} 14V${bottom + 8}`} className="cl" />
      <path
        d={`M${right + 2} ${crown}H${right + WALL + 34}M${right + 2} ${crown + deep}H${right + WALL + 34}`}
        className="n"
      />
      <path d={arrows(right + WALL + 26, crown, crown + deep)} className="n" />
      <text x={right + WALL + 34} y={at(crown + deep / 2 + 4)} className="tn b">
        {lettered.stroke}
      </text>
      <path
        d={`M${left} ${bottom}v20M${right} ${bottom}v20M${left} ${bottom + 14}H${right}M${left + 9} ${bottom + 10.5}L${left} ${bottom + 14}L${left + 9} ${bottom + 17.5}M${right - 9} ${bottom + 10.5}L${right} ${bottom + 14}L${right - 9} ${bottom + 17.5}`}
        className="n"
      />
      <text x={at((left + right) / 2)} y={bottom + 36} textAnchor="middle" className="tn b bgp">
        {lettered.bore}
      </text>
      {lettered.squish === null ? null : (
        <>
          <path
            d={`M${left + wide * 0.07} ${TOP + gap / 2}L${left - WALL - 10} 18H${left - WALL - 20}`}
            className="n"
          />
          <text x={4} y={15} className={squish !== null && squish <= 0 ? 'tn b hot' : 'tn b'}>
            {lettered.squish}
          </text>
        </>
      )}
      {closing === null || lettered.closing === null ? null : (
        <text x={at((left + right) / 2)} y={at(crown + closing * scale - 7)} textAnchor="middle" className="tn b bgp">
          {lettered.closing}
        </text>
      )}
    </Drawing>
  );
}

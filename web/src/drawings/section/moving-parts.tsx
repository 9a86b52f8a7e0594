import { at } from '../coordinates.ts';
import type { SectionFills } from './hatches.tsx';
import type { Proportions } from './proportions.ts';

type Props = { readonly fills: SectionFills; readonly proportions: Proportions };

const bothSides = [-1, 1] as const;

export function FourStrokePiston({ fills, proportions }: Props) {
  const pin = proportions.pistonPin;
  const half = proportions.halfBore - 0.6;
  const crown = pin - 24;
  const skirt = pin + 18;
  const y = (offset: number) => at(pin + offset);
  const inner = at(half - 3.8);
  const outer = at(half);
  return (
    <g data-layer="piston">
      <path
        d={`M-${outer} ${at(skirt)}V${at(crown + 1)}L-36 ${at(crown)}L-30 ${at(crown + 2)}L-10 ${at(crown - 2.4)}H10L30 ${at(crown + 2)}L36 ${at(crown)}L${outer} ${at(crown + 1)}V${at(skirt)}H${inner}L${at(half - 5)} ${at(crown + 22)}Q${at(half - 6.4)} ${at(crown + 9)} 24 ${at(crown + 7.6)}H-24Q-${at(half - 6.4)} ${at(crown + 9)}-${at(half - 5)} ${at(crown + 22)}L-${inner} ${at(skirt)}Z`}
        className="w"
        fill={fills.piston}
      />
      <path
        d={`M-${at(half - 5.4)} ${at(crown + 22)}Q-20 ${at(crown + 16)}-14.5 ${y(-5)}M${at(half - 5.4)} ${at(crown + 22)}Q20 ${at(crown + 16)} 14.5 ${y(-5)}M-${inner} ${at(skirt)}Q-20 ${at(skirt - 9)}-14 ${y(5)}M${inner} ${at(skirt)}Q20 ${at(skirt - 9)} 14 ${y(5)}`}
        className="n"
      />
      <circle cy={at(pin)} r={15.5} className="n f-paper" />
      {(
        [
          [5, 1.4],
          [10.2, 1.4],
          [15.6, 2.6],
        ] as const
      ).map(([down, thick]) =>
        bothSides.map((side) => (
          <path
            key={`${down}${side}`}
            d={`M${at(side * proportions.halfBore)} ${at(crown + down)}V${at(crown + down + thick)}H${at(side * (half - 3.9))}V${at(crown + down)}Z`}
            className="f-ink"
          />
        )),
      )}
    </g>
  );
}

export function TwoStrokePiston({ fills, proportions }: Props) {
  const pin = proportions.pistonPin;
  const crown = pin - 28;
  const skirt = at(pin + 32);
  const y = (offset: number) => at(crown + offset);
  return (
    <g data-layer="piston">
      <path
        d={`M-26.7 ${skirt}V${y(2.5)}Q0 ${y(-2.5)} 26.7 ${y(2.5)}V${skirt}H23.4L22.6 ${y(20)}Q21 ${y(8)} 12 ${y(6)}H-12Q-21 ${y(8)}-22.6 ${y(20)}L-23.4 ${skirt}Z`}
        className="w"
        fill={fills.piston}
      />
      <circle cy={at(pin)} r={12.5} className="n f-paper" />
      {[6, 11].map((down) =>
        bothSides.map((side) => (
          <path
            key={`${down}${side}`}
            d={`M${side * 27} ${y(down)}V${y(down + 1.5)}H${side * 23.4}V${y(down)}Z`}
            className="f-ink"
          />
        )),
      )}
    </g>
  );
}

const rollers = Array.from({ length: 14 }, (_, roller) => (roller / 14) * 2 * Math.PI);

export function ConnectingRod({ fills, proportions }: Props) {
  const { crankPin, pistonPin, rod } = proportions;
  const tilt = (Math.atan2(-crankPin.x, crankPin.y - pistonPin) * 180) / Math.PI;
  const big = (offset: number) => at(rod + offset);
  return (
    <g data-layer="rod" transform={`translate(0 ${at(pistonPin)}) rotate(${at(tilt)})`}>
      <path
        d={`M-6.8 10.5C-7 30-8.5 ${big(-40)}-11.5 ${big(-18)}A21 21 0 1 0 11.5 ${big(-18)}C8.5 ${big(-40)} 7 30 6.8 10.5A13 13 0 1 0-6.8 10.5Z`}
        className="w f-raised"
      />
      <path
        d={`M-3.2 19C-3.4 40-4.2 ${big(-42)}-5 ${big(-29)}Q0 ${big(-26)} 5 ${big(-29)}C4.2 ${big(-42)} 3.4 40 3.2 19Q0 16.5-3.2 19Z`}
        className="n f-paper2"
      />
      <circle r={9.6} className="w" fill={fills.shaft} />
      <circle r={5} className="n f-paper" />
      <circle cy={big(0)} r={16.4} className="n f-paper" />
      {rollers.map((angle) => (
        <circle
          key={angle}
          cx={at(14.1 * Math.cos(angle))}
          cy={at(rod + 14.1 * Math.sin(angle))}
          r={1.9}
          className="n f-paper"
        />
      ))}
      <circle cy={big(0)} r={11.6} className="w" fill={fills.shaft} />
    </g>
  );
}

export function Crank({ proportions, web }: { readonly proportions: Proportions; readonly web: number }) {
  const shoulder = at(proportions.throw + 11);
  return (
    <g data-layer="crank">
      <g transform="rotate(60)">
        <circle r={web} className="w f-paper" />
        <path
          d={`M-${at(web * 0.93)} ${at(web * 0.1)}Q-21 2-17.5-${shoulder}M${at(web * 0.93)} ${at(web * 0.1)}Q21 2 17.5-${shoulder}`}
          className="n"
        />
        <circle cx={at(-web * 0.58)} cy={at(web * 0.42)} r={at(web * 0.13)} className="n f-paper2" />
        <circle cx={at(web * 0.58)} cy={at(web * 0.42)} r={at(web * 0.13)} className="n f-paper2" />
      </g>
      <circle r={15} className="hid" />
    </g>
  );
}

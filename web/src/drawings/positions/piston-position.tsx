import { clamp } from '../coordinates.ts';
import { boxText, type PositionFacts, type PositionLettering } from './position-facts.ts';
import { ValueBox } from './value-box.tsx';

type Props = { readonly facts: PositionFacts & { readonly kind: 'piston' }; readonly lettering: PositionLettering };

/** The piston seen along the pin, the micrometer's line across the thrust faces at the maker's height. */
export function PistonPosition({ facts, lettering }: Props) {
  const { heightAboveSkirt, active, value } = facts;
  const skirt = 470;
  const y = clamp(skirt - heightAboveSkirt * 4, 330, 452);
  return (
    <g>
      <path
        d="M84 470V176Q84 160 100 160H316Q332 160 332 176V470L300 470Q296 420 208 420Q120 420 116 470Z"
        className="w f-paper"
      />
      {[184, 206, 232].map((groove, ring) => (
        <path key={groove} d={`M84 ${groove}H332V${groove + (ring === 2 ? 14 : 8)}H84Z`} className="n f-paper2" />
      ))}
      <circle cx={208} cy={324} r={44} className="w f-paper" />
      <circle cx={208} cy={324} r={36} className="n" />
      <path d="M208 130V500M140 324H276" className="cl" />
      <path d={`M84 ${y}H332`} className={active ? 'hotline' : 'n'} />
      <path
        d={active ? `M84 ${y}l-26-11v22zM332 ${y}l26-11v22z` : `M84 ${y}l-16-6v12zM332 ${y}l16-6v12z`}
        className={active ? 'mk' : 'f-ink'}
      />
      <path d={`M340 ${skirt}H424M396 ${y + 16}V${skirt}`} className="n" />
      <path d={`M396 ${skirt}l-4-11h8z`} className="f-ink" />
      <text x={404} y={skirt + 22} className="tn big">
        {lettering.length(heightAboveSkirt)}
      </text>
      <ValueBox x={368} y={y - 15} text={boxText(value, active, lettering)} active={active} />
    </g>
  );
}

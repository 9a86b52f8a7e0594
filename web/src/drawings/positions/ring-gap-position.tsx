import { fillWith } from '../hatch.tsx';
import type { PositionFacts, PositionLettering } from './position-facts.ts';
import { ValueBox } from './value-box.tsx';

type Props = {
  readonly facts: PositionFacts & { readonly kind: 'ring-gap' };
  readonly lettering: PositionLettering;
  readonly pattern: string;
};

/** The ring squared in the bore at its depth, the blade in its gap. */
export function RingGapPosition({ facts, lettering, pattern }: Props) {
  const { active, depth, value } = facts;
  const { words, length } = lettering;
  const y = 290;
  return (
    <g>
      <path d="M62 110H100V520H62ZM338 110H300V520H338Z" className="w" fill={fillWith(pattern)} />
      <path d="M100 110H300M100 520H300" className="n" />
      <path d="M200 80V550" className="cl" />
      <path d={`M100 ${y}A100 26 0 0 1 300 ${y}V${y + 16}A100 26 0 0 0 100 ${y + 16}Z`} className="n f-paper2" />
      <path
        d={`M100 ${y}A100 26 0 0 0 192 ${y + 26}V${y + 42}A100 26 0 0 1 100 ${y + 16}ZM300 ${y}A100 26 0 0 1 208 ${y + 26}V${y + 42}A100 26 0 0 0 300 ${y + 16}Z`}
        className="w f-raised"
      />
      <path
        d={`M196.5 ${y + 52}V${y - 70}Q196.5 ${y - 80} 200 ${y - 80}Q203.5 ${y - 80} 203.5 ${y - 70}V${y + 52}Z`}
        className={active ? 'mk' : 'n f-paper3'}
      />
      <path
        d={
          active ? `M160 ${y + 34}l30-9v18zM240 ${y + 34}l-30-9v18z` : `M168 ${y + 34}l22-6v12zM232 ${y + 34}l-22-6v12z`
        }
        className={active ? 'mk' : 'f-ink'}
      />
      <path d={`M32 110H58M32 ${y}H96M42 110V${y}`} className="n" />
      <path d={`M42 110l-4 12h8zM42 ${y}l-4-12h8z`} className="f-ink" />
      <text x={42} y={100} textAnchor="middle" className="tn big">
        {length(depth)}
      </text>
      <ValueBox
        x={358}
        y={y + 20}
        text={active ? words.position.now : (value ?? words.position.none)}
        active={active}
      />
    </g>
  );
}

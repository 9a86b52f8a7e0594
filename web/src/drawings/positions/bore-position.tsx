import { levelName } from '../bore-facts.ts';
import { at } from '../coordinates.ts';
import { fillWith } from '../hatch.tsx';
import { boxText, type PositionFacts, type PositionLettering } from './position-facts.ts';
import { ValueBox } from './value-box.tsx';

type Props = {
  readonly facts: PositionFacts & { readonly kind: 'bore' };
  readonly lettering: PositionLettering;
  readonly pattern: string;
};

const TOP = 60;
const DEPTH = 500;

/** Where a height below the deck lies on the sheet. */
export function heightInBarrel(facts: PositionFacts & { readonly kind: 'bore' }, height: number): number {
  const lowest = Math.max(...facts.levels.map((level) => level.height), 1);
  const barrel = Math.max(facts.barrelDepth ?? lowest * 1.25, lowest);
  return TOP + (height / barrel) * DEPTH;
}

/** The barrel in half section; the gauge's line is heavy where a reading is asked. */
export function BorePosition({ facts, lettering, pattern }: Props) {
  const { levels, active } = facts;
  const pitch = DEPTH / Math.max(levels.length, 1);
  const roomy = pitch >= 72;
  return (
    <g>
      <path d="M62 60H100V560H84V500H62ZM338 60H300V560H316V500H338Z" className="w" fill={fillWith(pattern)} />
      <path d="M100 60H300M100 560H300" className="n" />
      <path d="M200 34V584" className="cl" />
      {levels.map((level, index) => {
        const y = at(heightInBarrel(facts, level.height));
        const here = active?.level === index ? active.axis : null;
        const boxes = roomy ? y : at(TOP + pitch * (index + 0.5));
        const [across, along] = [here === 'across', here === 'along'];
        return (
          <g key={level.height} data-level={levelName(index)} data-active={here ?? undefined}>
            <ellipse cx={200} cy={y} rx={100} ry={24} className={along ? 'hotline' : 'n faint'} />
            <text x={34} y={y + 7} textAnchor="middle" className={here === null ? 'tn b huge' : 'tn b huge hot'}>
              {levelName(index)}
            </text>
            <path d={`M100 ${y}H300`} className={across ? 'hotline' : 'n'} />
            <path
              d={across ? `M100 ${y}l20-9v18zM300 ${y}l-20-9v18z` : `M100 ${y}l12-5v10zM300 ${y}l-12-5v10z`}
              className={across ? 'mk' : 'f-ink'}
            />
            <path d={`M182 ${at(y - 20)}L218 ${at(y + 20)}`} className={along ? 'hotline' : 'n'} />
            {along ? <path d={`M179 ${at(y - 24)}l3 17 10-9zM221 ${at(y + 24)}l-3-17-10 9z`} className="mk" /> : null}
            <ValueBox
              x={352}
              y={boxes - 32}
              text={boxText(level.across, across, lettering)}
              active={across}
              note={lettering.words.bore.acrossShort}
            />
            <ValueBox
              x={352}
              y={boxes + 4}
              text={boxText(level.along, along, lettering)}
              active={along}
              note={lettering.words.bore.alongShort}
            />
          </g>
        );
      })}
    </g>
  );
}

import { at } from '../coordinates.ts';
import { boxText, type PositionFacts, type PositionLettering } from './position-facts.ts';
import { ValueBox } from './value-box.tsx';

type Props = { readonly facts: PositionFacts & { readonly kind: 'pin' }; readonly lettering: PositionLettering };

/** The pin lying, its places along it; the one asked for heavy. */
export function PinPosition({ facts, lettering }: Props) {
  const { places, active } = facts;
  const pitch = 430 / Math.max(places.length, 1);
  return (
    <g>
      <path
        d="M44 190H496Q504 190 504 198V310Q504 318 496 318H44Q36 318 36 310V198Q36 190 44 190Z"
        className="w f-raised"
      />
      <path d="M36 224H504M36 284H504" className="hid" />
      <path d="M20 254H520" className="cl" />
      {places.map(({ name, value }, index) => {
        const x = at(55 + pitch * (index + 0.5));
        const here = active === index;
        return (
          <g key={name} data-place={name}>
            <path d={`M${x} 190V318`} className={here ? 'hotline' : 'n'} />
            <path
              d={here ? `M${x} 190l-10-22h20zM${x} 318l-10 22h20z` : `M${x} 190l-6-14h12zM${x} 318l-6 14h12z`}
              className={here ? 'mk' : 'f-ink'}
            />
            <ValueBox x={x - 56} y={356} text={boxText(value, here, lettering)} active={here} />
            <text x={x} y={410} textAnchor="middle" className="tx2 side">
              {name}
            </text>
          </g>
        );
      })}
    </g>
  );
}

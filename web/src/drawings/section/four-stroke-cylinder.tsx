import { at } from '../coordinates.ts';
import { Mirrored } from '../drawing.tsx';
import type { SectionFills } from './hatches.tsx';

export type Cooling = 'water' | 'air';

type Props = { readonly fills: SectionFills; readonly cooling: Cooling; readonly halfBore: number };

const fins = Array.from({ length: 8 }, (_, fin) => -95 - fin * 8);

export function Cylinder({ fills, cooling, halfBore }: Props) {
  const bore = at(halfBore);
  const wall = `M-${bore}-157V-64H-49V-82H-64V-90`;
  return (
    <g data-layer="cylinder">
      <Mirrored>
        {cooling === 'air' ? (
          <path
            d={`${wall}H-52${fins.map((y) => `V${y}H-73V${y - 3}H-52`).join('')}V-157Z`}
            className="w"
            fill={fills.cylinder}
          />
        ) : (
          <>
            <path d={`${wall}L-57-92V-100L-66-106V-157Z`} className="w" fill={fills.cylinder} />
            <path d="M-51-150H-60V-111Q-60-107-56-105H-51Z" className="n f-paper" />
          </>
        )}
      </Mirrored>
      <path d="M-64-82H-49M64-82H49" className="x" />
    </g>
  );
}

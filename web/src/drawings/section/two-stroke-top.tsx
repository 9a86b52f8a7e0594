import { Mirrored } from '../drawing.tsx';
import type { SectionFills } from './hatches.tsx';
import { twoStrokeOutlines } from './outlines.ts';
import { SparkPlug } from './spark-plug.tsx';

type Props = { readonly fills: SectionFills };

export function TwoStrokeHead({ fills }: Props) {
  return (
    <g data-layer="head">
      <path d={twoStrokeOutlines.head} className="w" fill={fills.head} />
      <Mirrored>
        <path d="M50-163V-171L45-181Q42-186 34-186H18L20-172Q28-168 33-163ZM30-193v-6h10v7z" className="n f-paper" />
      </Mirrored>
      <path d="M-5-177V-192M5-177V-192" className="n" />
      <SparkPlug seat={-178} />
    </g>
  );
}

/** Exhaust port left, transfer passage right, the second transfer hidden behind. */
export function TwoStrokeCylinder({ fills }: Props) {
  return (
    <g data-layer="cylinder">
      <path
        d="M-56-159H-27V-134L-77-139V-143L-56-146ZM-77-102V-107L-27-103V-64H-32V-82H-48V-92L-54-98ZM27-159H56V-146L54-98L48-92V-82H46V-108Q46-124 33-126L27-124ZM27-106L33-108Q36-107 36-100V-82H32V-64H27Z"
        className="w"
        fill={fills.cylinder}
      />
      <path d="M-50-153H-34V-140L-50-142ZM36-153H50V-126Q46-130 36-130Z" className="n f-paper" />
      <path d="M-27-134V-103M27-124V-106" className="n" />
      <path d="M-14-126Q0-129 14-126V-106H-14Z" className="hid" />
      <path d="M-77-143V-102" className="w" />
      <path d="M-48-82H-32M48-82H46" className="x" />
    </g>
  );
}

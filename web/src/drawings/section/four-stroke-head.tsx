import { at } from '../coordinates.ts';
import { Mirrored } from '../drawing.tsx';
import type { SectionFills } from './hatches.tsx';
import { camCentre, fourStrokeOutlines, valveFace } from './outlines.ts';
import { SparkPlug } from './spark-plug.tsx';

type Props = { readonly fills: SectionFills };

export function Cover({ fills }: Props) {
  return (
    <g data-layer="cover">
      <path d={fourStrokeOutlines.cover} className="w" fill={fills.cover} />
      <path d="M-69-250V-271Q-69-288-50-288H-17V-250ZM69-250V-271Q69-288 50-288H17V-250Z" className="w f-paper" />
      <path d="M-12-250V-292H12V-250Z" className="n f-paper" />
      <Mirrored>
        <path d="M62-258h12v-5h-12zM66-263v-3.5h5v3.5" className="n f-paper" />
      </Mirrored>
    </g>
  );
}

export function Cams({ fills }: Props) {
  return (
    <g data-layer="cams">
      <Mirrored>
        <g transform={`translate(${at(camCentre.x)} ${at(camCentre.y)})`}>
          <path d="M-21.5 0H21.5V-6H18.5A19 19 0 0 0-18.5-6H-21.5Z" className="n f-paper" />
          <path d="M-21-6h5.4v-6h-5.4zM21-6h-5.4v-6h5.4z" className="n f-paper" />
          <g transform="rotate(38)">
            <path
              d="M-13.6-3.4Q-9-15-5-19.6A6.6 6.6 0 0 1 5-19.6Q9-15 13.6-3.4A14 14 0 1 1-13.6-3.4Z"
              className="w"
              fill={fills.shaft}
            />
            <circle r={5.5} className="w f-paper" />
          </g>
        </g>
      </Mirrored>
    </g>
  );
}

const coils = [0, 1, 2, 3, 4].map((turn) => -44 - turn * 5.6);

/** Guide cut, valve whole, spring cut left and right with its coils in view, shim under the bucket. */
function Valve({ fills }: Props) {
  return (
    <g transform={`translate(${valveFace.x} ${valveFace.y}) rotate(14)`}>
      <path d="M-13-41V-60H-14.8V-90H14.8V-60H13V-41Z" className="n f-paper" />
      <path d="M-6-24H6V-49H-6Z" className="n" fill={fills.guide} />
      <path d="M-15.8 0V-1.6L-12.6-4.6Q-4-7-2.9-17V-80H2.9V-17Q4-7 12.6-4.6L15.8-1.6V0Z" className="w f-paper" />
      <path d={coils.map((y) => `M-10.2 ${at(y)}L10.2 ${at(y - 2.8)}`).join('')} className="n" />
      {coils.map((y) => (
        <g key={y} className="f-ink">
          <circle cx={-10.2} cy={at(y)} r={1.9} />
          <circle cx={10.2} cy={at(y - 2.8)} r={1.9} />
        </g>
      ))}
      <path d="M-11.5-70H11.5V-72L5-74.5H-5L-11.5-72Z" className="n f-paper" />
      <path d="M-14-61V-85H14V-61H11.8V-82.4H-11.8V-61Z" className="n f-paper3" />
      <path d="M-4.6-80H4.6V-82.4H-4.6Z" className="f-ink" />
    </g>
  );
}

export function Head({ fills }: Props) {
  const left = at(camCentre.x - 21.5);
  const right = at(camCentre.x + 21.5);
  const port = (flange: number) => `M8.4-166.6C12-190,36-214,${flange}-212V-183C56-183,44-177,38-166L35.6-159.8Z`;
  return (
    <g data-layer="head">
      <path d={fourStrokeOutlines.head} className="w" fill={fills.head} />
      <path d="M-67-250V-236H-15V-250ZM67-250V-236H15V-250Z" className="n f-paper" />
      <path d="M-11-250V-207L-8-199V-193H-5V-167.8L0-169L5-167.8V-193H8V-199L11-207V-250Z" className="n f-paper" />
      <Mirrored>
        <path d="M46-163H60V-172Q54-173 50-170Z" className="n f-paper" />
      </Mirrored>
      <path d={port(78)} className="n f-paper" />
      <path d={port(75)} className="n f-paper" transform="scale(-1 1)" />
      <Mirrored>
        <Valve fills={fills} />
        <path
          d={`M${left} ${at(camCentre.y)}V-250M${right} ${at(camCentre.y)}V-250M${left} ${at(camCentre.y)}H${right}`}
          className="n"
        />
      </Mirrored>
      <SparkPlug seat={-169} />
    </g>
  );
}

export function PlugCap() {
  return (
    <g data-layer="cap">
      <path d="M-8-229V-240L-5-244V-284L-9-290V-297H9V-290L5-284V-244L8-240V-229Z" className="n f-raised" />
      <path d="M-5-262H5M-5-268H5M-5-274H5" className="n" />
    </g>
  );
}

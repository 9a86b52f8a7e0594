import { isOff } from '#domain/section/depth.ts';
import { at } from '../coordinates.ts';
import { Drawing, Mirrored } from '../drawing.tsx';
import { Callouts } from './callouts.tsx';
import { FourStrokeCasing, TwoStrokeCasing } from './casing.tsx';
import { Cylinder } from './four-stroke-cylinder.tsx';
import { Cams, Cover, Head, PlugCap } from './four-stroke-head.tsx';
import { type SectionFills, SectionHatches, useSectionFills } from './hatches.tsx';
import { ConnectingRod, Crank, FourStrokePiston, TwoStrokePiston } from './moving-parts.tsx';
import { Cloth, OpenMouth } from './opening-marks.tsx';
import { alongValve, fourStrokeOutlines, twoStrokeOutlines } from './outlines.ts';
import { fourStrokeProportions, type Proportions, twoStrokeProportions } from './proportions.ts';
import type { SectionFacts } from './section-facts.ts';
import { TwoStrokeCylinder, TwoStrokeHead } from './two-stroke-top.tsx';

/** From this height on, the section is drawn with every line at full width and the valves' centre lines. */
const FULL_DETAIL = 300;

type LayersProps = { readonly facts: SectionFacts; readonly fills: SectionFills; readonly proportions: Proportions };

function FourStrokeLayers({ facts, fills, proportions }: LayersProps) {
  const { depth, cooling, cams } = facts;
  const bore = at(proportions.halfBore);
  return (
    <>
      <FourStrokeCasing fills={fills} open={isOff(depth, 'case')} />
      {isOff(depth, 'case') ? null : (
        <>
          <Crank proportions={proportions} web={50} />
          <FourStrokePiston fills={fills} proportions={proportions} />
          <ConnectingRod fills={fills} proportions={proportions} />
        </>
      )}
      {isOff(depth, 'cylinder') ? null : <Cylinder fills={fills} cooling={cooling} halfBore={proportions.halfBore} />}
      {isOff(depth, 'head') ? null : <Head fills={fills} />}
      {isOff(depth, 'cover') ? null : <Cover fills={fills} />}
      {isOff(depth, 'head') || !cams ? null : <Cams fills={fills} />}
      {isOff(depth, 'cover') ? null : <PlugCap />}
      {isOff(depth, 'head') ? null : <path d={`M-66-157.7H-${bore}M${bore}-157.7H66`} className="x" />}
      {isOff(depth, 'cover') ? null : <path d="M-77-250H-12M12-250H77" className="x" />}
    </>
  );
}

function TwoStrokeLayers({ facts, fills, proportions }: LayersProps) {
  const { depth } = facts;
  return (
    <>
      <TwoStrokeCasing fills={fills} open={isOff(depth, 'case')} />
      {isOff(depth, 'case') ? null : (
        <>
          <Crank proportions={proportions} web={42} />
          <TwoStrokePiston fills={fills} proportions={proportions} />
          <ConnectingRod fills={fills} proportions={proportions} />
        </>
      )}
      {isOff(depth, 'cylinder') ? null : <TwoStrokeCylinder fills={fills} />}
      {isOff(depth, 'head') ? null : <TwoStrokeHead fills={fills} />}
      {isOff(depth, 'head') ? null : <path d="M-56-159.5H-27M27-159.5H56" className="x" />}
    </>
  );
}

/** What is off stays on the sheet as a long-dash two-dot outline where it belongs. */
function Phantoms({ facts }: { readonly facts: SectionFacts }) {
  const outlines =
    facts.stroke === 'two-stroke'
      ? ([
          ['head', twoStrokeOutlines.head],
          ['cylinder', twoStrokeOutlines.cylinder],
        ] as const)
      : ([
          ['cover', fourStrokeOutlines.cover],
          ['head', fourStrokeOutlines.head],
          ['cylinder', fourStrokeOutlines.cylinder],
        ] as const);
  return (
    <g data-layer="phantoms">
      {outlines.map(([part, outline]) =>
        isOff(facts.depth, part) ? <path key={part} d={outline} className="ph" data-off={part} /> : null,
      )}
    </g>
  );
}

type CentreLinesProps = {
  readonly facts: SectionFacts;
  readonly proportions: Proportions;
  readonly top: number;
  readonly bottom: number;
  readonly detailed: boolean;
};

function CentreLines({ facts, proportions, top, bottom, detailed }: CentreLinesProps) {
  const two = facts.stroke === 'two-stroke';
  const low = alongValve(-6);
  const high = alongValve(128);
  const pin = at(proportions.pistonPin);
  return (
    <>
      <path d={`M0 ${two && isOff(facts.depth, 'head') ? -206 : top + 4}V${bottom - 4}`} className="cl" />
      <path d={`M-${two ? 66 : 80} 0H${detailed ? 146 : 70}`} className="cl" />
      {isOff(facts.depth, 'case') ? null : <path d={`M-20 ${pin}H20`} className="cl" />}
      {two || isOff(facts.depth, 'head') || !detailed ? null : (
        <Mirrored>
          <path d={`M${at(low.x)} ${at(low.y)}L${at(high.x)} ${at(high.y)}`} className="cl" />
        </Mirrored>
      )}
    </>
  );
}

/** The section from 100 px up, in mm, the pitch of its hatching held on the screen. */
export function LargeSection({ facts, label }: { readonly facts: SectionFacts; readonly label: string | undefined }) {
  const { base, fills } = useSectionFills();
  const two = facts.stroke === 'two-stroke';
  const proportions = two ? twoStrokeProportions() : fourStrokeProportions(facts.bore, facts.strokeLength);
  const [top, bottom, left, right] = two ? [-254, 70, -90, 150] : [-302, 80, -88, 150];
  const scale = (bottom - top) / facts.size;
  const detailed = facts.size >= FULL_DETAIL;
  const lettering = facts.callouts.length === 0 ? 0 : facts.calloutWidth * scale;
  const width = right - left + lettering;
  return (
    <Drawing
      className={detailed ? 'sec' : 'sec mid'}
      label={label}
      viewBox={[left, top, at(width), bottom - top]}
      width={at(width / scale)}
      height={facts.size}
    >
      <SectionHatches base={base} scale={scale} large={detailed} />
      {two ? (
        <TwoStrokeLayers facts={facts} fills={fills} proportions={proportions} />
      ) : (
        <FourStrokeLayers facts={facts} fills={fills} proportions={proportions} />
      )}
      {facts.phantom ? <Phantoms facts={facts} /> : null}
      <CentreLines facts={facts} proportions={proportions} top={top} bottom={bottom} detailed={detailed} />
      {facts.depth === 'closed' ? null : facts.covered ? (
        <Cloth stroke={facts.stroke} depth={facts.depth} fill={fills.cloth} />
      ) : (
        <OpenMouth stroke={facts.stroke} depth={facts.depth} halfBore={proportions.halfBore} />
      )}
      {lettering === 0 ? null : (
        <Callouts
          callouts={facts.callouts}
          stroke={facts.stroke}
          x={right + 8}
          floor={bottom - 24 * scale}
          scale={scale}
        />
      )}
    </Drawing>
  );
}

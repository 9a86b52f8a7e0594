import { at } from '../coordinates.ts';
import { Drawing } from '../drawing.tsx';
import { CompactOpening, CompactPhantoms } from './compact-opening.tsx';
import { isOff } from './depth.ts';
import type { SectionFacts } from './section-facts.ts';

/** Finer lines are drawn only where there are pixels for them. */
const FINE_FROM = 48;

type Props = { readonly facts: SectionFacts; readonly fine: boolean };

function Case({ facts, fine }: Props) {
  const open = isOff(facts.depth, 'case');
  return (
    <g data-layer="case">
      <path
        d="M11 36H41L51 38.5Q54 39 56 41.5L61.5 48Q63 50 62 53Q60.5 57.5 56 59.5L47 63H18Q15 63 14 60Q11 56 11 50Z"
        className="f-ink"
      />
      <circle cx={26} cy={50} r={10.4} className="f-paper" />
      <path d="M18 35.8H34V46H18Z" className="f-paper" />
      {open ? (
        <>
          <circle cx={26} cy={50} r={5.4} className="f-ink" />
          <circle cx={26} cy={50} r={2.8} className="f-paper" />
          <path
            d="M41.5 42.5L50 43Q53 43.6 55 46L58.4 50Q57.4 54.4 54 56L46 59H40Q44 50 41.5 42.5Z"
            className="f-paper"
          />
          <circle cx={50} cy={50.5} r={3.2} className="f-ink" />
          <circle cx={50} cy={50.5} r={1.3} className="f-paper" />
        </>
      ) : (
        <>
          <circle cx={26} cy={50} r={8.2} className="f-ink" />
          <circle cx={51} cy={50} r={fine ? 4.4 : 4} className="f-paper" />
          {fine ? <circle cx={51} cy={50} r={2} className="f-ink" /> : null}
        </>
      )}
    </g>
  );
}

function PistonAndRod({ facts, fine }: Props) {
  const two = facts.stroke === 'two-stroke';
  const half = two ? 4.6 : 7;
  const skirt = 25 + (two ? 11 : 9);
  const [l, r] = [at(26 - half), at(26 + half)];
  return (
    <g data-layer="piston">
      <path d="M23.6 31L26.6 46.6A4.8 4.8 0 1 0 33 44.6L28.6 30.6Z" className="f-paper" />
      <path d="M24.8 31L28 46L31.6 45L27.6 30.6Z" className="f-ink" />
      <circle cx={30} cy={46.4} r={3.6} className="f-ink" />
      <circle cx={30} cy={46.4} r={1.5} className="f-paper" />
      <path
        d={`M${l} 25H${r}V${skirt}H${at(26 + half - 2.2)}V31.4H${at(26 - half + 2.2)}V${skirt}H${l}Z`}
        className="f-ink"
      />
      <path d={`M${l} 27H${r}V${fine ? 28 : 28.4}H${l}Z`} className="f-paper" />
      {fine ? <path d={`M${l} 29.2H${r}V30H${l}Z`} className="f-paper" /> : null}
    </g>
  );
}

function CylinderLayer({ facts }: Props) {
  if (facts.stroke === 'two-stroke')
    return (
      <g data-layer="cylinder">
        <path
          d="M16 21.6H21V27L10 25.6V22.6L16 23ZM10 32V35.2L16 34.6V35.2H21V31.2ZM31 21.6H36V35.2H34.4V31Q34 29 31 29.4Z"
          className="f-ink"
        />
      </g>
    );
  return (
    <g data-layer="cylinder">
      <path d="M12 21.6H18V38H15.6V35.2H12ZM40 21.6H34V38H36.4V35.2H40Z" className="f-ink" />
      {facts.cooling === 'air' ? (
        <path
          d="M9 21.6H12V23.4H9ZM9 25.4H12V27.2H9ZM9 29.2H12V31H9ZM40 21.6H43V23.4H40ZM40 25.4H43V27.2H40ZM40 29.2H43V31H40Z"
          className="f-ink"
        />
      ) : (
        <path d="M14 24H16V32H14ZM36 24H38V32H36Z" className="f-paper" />
      )}
    </g>
  );
}

function HeadLayer({ facts, fine }: Props) {
  if (facts.stroke === 'two-stroke')
    return (
      <g data-layer="head">
        <path
          d="M15 20.4V17L18.4 11.6Q19.4 10.4 21 10.4H31Q32.6 10.4 33.6 11.6L37 17V20.4H31Q30.4 16 26 16Q21.6 16 21 20.4ZM24 10.4V1H28V10.4ZM22.4 7.4H29.6V9.6H22.4Z"
          className="f-ink"
        />
        <path d="M24 4.2h4v1.4h-4z" className="f-paper" />
      </g>
    );
  return (
    <g data-layer="head">
      <path d="M12 20.4V10.4H40V20.4H34L26 18.2L18 20.4Z" className="f-ink" />
      <path d="M20.4 19.8L16.6 10.4H18.6L22.6 19.2ZM31.6 19.8L35.4 10.4H33.4L29.4 19.2Z" className="f-paper" />
      {fine ? (
        <path
          d="M12 14Q16.4 14 18 17.6L16.8 18.6Q15 16.6 12 16.6ZM40 14Q35.6 14 34 17.6L35.2 18.6Q37 16.6 40 16.6Z"
          className="f-paper"
        />
      ) : null}
    </g>
  );
}

function CoverAndCams({ facts }: Props) {
  if (isOff(facts.depth, 'cover'))
    return facts.cams ? (
      <g data-layer="cams">
        <circle cx={15} cy={6.2} r={3.6} className="f-ink" />
        <circle cx={37} cy={6.2} r={3.6} className="f-ink" />
        <path d="M11.8 4.6L13-.8L18 4.4ZM40.2 4.6L39-.8L34 4.4Z" className="f-ink" />
        <circle cx={15} cy={6.2} r={1.4} className="f-paper" />
        <circle cx={37} cy={6.2} r={1.4} className="f-paper" />
      </g>
    ) : null;
  return (
    <g data-layer="cover">
      <path
        d="M9 9.4V4.4Q9-.6 14-.6H38Q43-.6 43 4.4V9.4H40.4V4.6Q40.4 2 37.8 2H14.2Q11.6 2 11.6 4.6V9.4ZM24.6 2H27.4V9.4H24.6Z"
        className="f-ink"
      />
      {facts.cams ? (
        <g data-layer="cams" className="f-ink">
          <circle cx={18} cy={6} r={2.8} />
          <circle cx={34} cy={6} r={2.8} />
        </g>
      ) : null}
    </g>
  );
}

/** The section from 24 to 99 px: one 64 grid, cut metal solid, the engine losing height as it's opened. */
export function CompactSection({ facts, label }: { readonly facts: SectionFacts; readonly label: string | undefined }) {
  const fine = facts.size >= FINE_FROM;
  const two = facts.stroke === 'two-stroke';
  return (
    <Drawing
      className="sec c"
      label={label}
      viewBox={[4, -1, 60, 64]}
      width={at((facts.size * 60) / 64)}
      height={facts.size}
    >
      <Case facts={facts} fine={fine} />
      {isOff(facts.depth, 'case') ? null : <PistonAndRod facts={facts} fine={fine} />}
      {isOff(facts.depth, 'cylinder') ? null : <CylinderLayer facts={facts} fine={fine} />}
      {two ? (
        <g data-layer="reed">
          <path d="M37 36L44 27L50 30.4L46 37.6Z" className="f-ink" />
          {fine ? <path d="M41.6 34.6L45.4 29.6L47 30.6L43.4 35.6Z" className="f-paper" /> : null}
        </g>
      ) : null}
      {isOff(facts.depth, 'head') ? null : <HeadLayer facts={facts} fine={fine} />}
      {two || isOff(facts.depth, 'head') ? null : <CoverAndCams facts={facts} fine={fine} />}
      {fine && facts.phantom ? <CompactPhantoms facts={facts} /> : null}
      <CompactOpening facts={facts} />
    </Drawing>
  );
}

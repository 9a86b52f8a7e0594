import { at } from '../coordinates.ts';
import type { SectionFills } from './hatches.tsx';
import { fourStrokeOutlines, twoStrokeOutlines } from './outlines.ts';

type Props = { readonly fills: SectionFills; readonly open: boolean };

type Seat = {
  readonly housing: number;
  readonly race: number;
  readonly bore: number;
  readonly balls: number;
  readonly ball: number;
};

/** Crank out: the empty main bearing, so an open case never looks like a closed one. */
function EmptyBearing({ fills, seat }: { readonly fills: SectionFills; readonly seat: Seat }) {
  const pitch = (seat.race + seat.bore) / 2;
  return (
    <>
      <circle r={seat.housing} className="w" fill={fills.casing} />
      <circle r={seat.race} className="n f-paper" />
      <circle r={seat.bore} className="w f-paper" />
      {Array.from({ length: seat.balls }, (_, ball) => (ball / seat.balls) * 2 * Math.PI).map((angle) => (
        <circle
          key={angle}
          cx={at(pitch * Math.cos(angle))}
          cy={at(pitch * Math.sin(angle))}
          r={seat.ball}
          className="n f-paper"
        />
      ))}
    </>
  );
}

type Shaft = { readonly x: number; readonly y: number; readonly gear: number; readonly shaft: number };

function GearShafts({ fills, open, shafts }: Props & { readonly shafts: readonly Shaft[] }) {
  return shafts.map(({ x, y, gear, shaft }) =>
    open ? (
      <g key={x}>
        <circle cx={x} cy={y} r={shaft + 5} className="n" />
        <circle cx={x} cy={y} r={shaft + 1} className="w f-paper" />
      </g>
    ) : (
      <g key={x}>
        <circle cx={x} cy={y} r={gear} className="cl" />
        <circle cx={x} cy={y} r={shaft} className="w" fill={fills.shaft} />
      </g>
    ),
  );
}

function CaseBolts({
  places,
  radius,
}: {
  readonly places: readonly (readonly [number, number])[];
  readonly radius: number;
}) {
  return places.map(([x, y]) => <circle key={`${x},${y}`} cx={x} cy={y} r={radius} className="n f-paper" />);
}

export function FourStrokeCasing({ fills, open }: Props) {
  return (
    <g data-layer="case">
      <path d={fourStrokeOutlines.casing} className="w" fill={fills.casing} />
      <path d="M-50-86V-24A56 56 0 1 0 50-24V-86Z" className="f-paper" />
      <path d={fourStrokeOutlines.cavity} className="w" />
      <path d={fourStrokeOutlines.gears} className="n f-paper" />
      {open ? (
        <>
          <path
            d="M-30-47A56 56 0 0 0-50-24M30-47A56 56 0 0 1 50-24M-50-10L-29-4M50-10L29-4M-36 42L-19 22M36 42L19 22"
            className="n"
          />
          <EmptyBearing fills={fills} seat={{ housing: 29, race: 22, bore: 14, balls: 10, ball: 2.9 }} />
        </>
      ) : null}
      <GearShafts
        fills={fills}
        open={open}
        shafts={[
          { x: 88, y: -24, gear: 25, shaft: 8 },
          { x: 98, y: 14, gear: 17, shaft: 8 },
        ]}
      />
      <CaseBolts
        radius={3.6}
        places={[
          [-57, -68],
          [-61, -2],
          [-46, 50],
          [10, 64],
          [57, -68],
          [135, 0],
          [120, 42],
          [104, -62],
        ]}
      />
    </g>
  );
}

export function TwoStrokeCasing({ fills, open }: Props) {
  return (
    <g data-layer="case">
      <path d={twoStrokeOutlines.casing} className="w" fill={fills.casing} />
      <path d="M-33-86V-32A46 46 0 1 0 44-14L50-34L92-107L82-113L46-62V-86Z" className="f-paper" />
      <path d="M-33-82V-32A46 46 0 1 0 44-14L50-34L90-104M80-110L46-62V-82" className="w" />
      <path d={twoStrokeOutlines.gears} className="n f-paper" />
      <g data-layer="reed">
        <path d="M56-59L77-92L88-86L72-56Z" className="n f-paper2" />
        <path d="M60-60L80-88M66-57L84-84" className="n" />
      </g>
      {open ? <EmptyBearing fills={fills} seat={{ housing: 25, race: 19, bore: 12, balls: 9, ball: 2.6 }} /> : null}
      <GearShafts
        fills={fills}
        open={open}
        shafts={[
          { x: 84, y: -20, gear: 23, shaft: 7 },
          { x: 92, y: 14, gear: 16, shaft: 7 },
        ]}
      />
      <CaseBolts
        radius={3.4}
        places={[
          [-44, -68],
          [-50, -2],
          [-37, 42],
          [8, 54],
          [127, 0],
          [112, 36],
          [98, -52],
        ]}
      />
    </g>
  );
}

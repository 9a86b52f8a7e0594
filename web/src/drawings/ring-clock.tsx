import { useId } from 'react';
import { at, onCircle } from './coordinates.ts';
import { Drawing } from './drawing.tsx';
import { fillWith, Hatch } from './hatch.tsx';
import { type DrawingWords, englishWords } from './words.ts';

export type RingGap = {
  /** The short mark in the ball: 1, 2, 3, S … */
  readonly mark: string;
  readonly name: string;
  /** Degrees clockwise from the exhaust side, seen from above; `null` while the ring isn't placed. */
  readonly angle: number | null;
  /** False when it lies in a forbidden zone: the domain judges, the drawing shows. */
  readonly allowed?: boolean;
};

export type ForbiddenZone = { readonly from: number; readonly to: number };

export type RingClockProps = {
  readonly gaps: readonly RingGap[];
  readonly forbidden?: readonly ForbiddenZone[];
  readonly size?: number;
  readonly words?: Pick<DrawingWords, 'rings'>;
};

const C = 180;
const centre = { x: C, y: C };
const point = (angle: number, radius: number) => {
  const { x, y } = onCircle(centre, radius, angle);
  return `${at(x)} ${at(y)}`;
};

function Zone({ zone, pattern }: { readonly zone: ForbiddenZone; readonly pattern: string }) {
  const wide = (((zone.to - zone.from) % 360) + 360) % 360 > 180 ? 1 : 0;
  return (
    <path
      d={`M${point(zone.from, 128)}A128 128 0 ${wide} 1 ${point(zone.to, 128)}L${point(zone.to, 64)}A64 64 0 ${wide} 0 ${point(zone.from, 64)}Z`}
      className="n"
      fill={fillWith(pattern)}
      data-zone={`${zone.from}-${zone.to}`}
    />
  );
}

function Ring({ gap, radius, reach }: { readonly gap: RingGap; readonly radius: number; readonly reach: number }) {
  if (gap.angle === null) return <circle cx={C} cy={C} r={at(radius)} className="phs" />;
  const half = (5.2 * 118) / radius;
  const wrong = gap.allowed === false;
  const tip = onCircle(centre, radius, gap.angle);
  const ball = onCircle(centre, reach, gap.angle);
  return (
    <g data-gap={gap.mark}>
      <path
        d={`M${point(gap.angle + half, radius)}A${at(radius)} ${at(radius)} 0 1 1 ${point(gap.angle - half, radius)}`}
        className="w"
      />
      <path d={`M${point(gap.angle, radius)}L${point(gap.angle, reach - 13)}`} className={wrong ? 'n hot' : 'n'} />
      {wrong ? (
        <circle cx={at(tip.x)} cy={at(tip.y)} r={6.5} className="hotring" />
      ) : (
        <circle cx={at(tip.x)} cy={at(tip.y)} r={2.6} className="f-ink" />
      )}
      <circle cx={at(ball.x)} cy={at(ball.y)} r={13} className={wrong ? 'hotball' : 'n f-paper'} />
      <text x={at(ball.x)} y={at(ball.y + 4.5)} textAnchor="middle" className={wrong ? 'tn b onhot' : 'tn b'}>
        {gap.mark}
      </text>
    </g>
  );
}

/** Balls of gaps that lie close together stand farther out, so that none hides another. */
export function reachOf(gaps: readonly RingGap[]): number[] {
  const placed: { readonly angle: number; readonly reach: number }[] = [];
  return gaps.map(({ angle }) => {
    if (angle === null) return 152;
    const near = placed.filter((other) => Math.abs(((angle - other.angle + 540) % 360) - 180) < 11);
    const reach = [152, 179, 206].find((radius) => near.every((other) => other.reach !== radius)) ?? 206;
    placed.push({ angle, reach });
    return reach;
  });
}

/** The piston from above: each ring's gap at its angle, zones where none may lie hatched. */
export function RingClock({ gaps, forbidden = [], size = 360, words = englishWords }: RingClockProps) {
  const id = useId();
  const said = gaps
    .filter((gap): gap is RingGap & { angle: number } => gap.angle !== null)
    .map(({ name, angle, allowed }) => (allowed === false ? words.rings.gapInZone : words.rings.gap)(name, angle));
  const step = gaps.length > 1 ? Math.min(11.5, 46 / (gaps.length - 1)) : 0;
  const reaches = reachOf(gaps);
  return (
    <Drawing
      label={words.rings.clock(said.join(', '))}
      viewBox={[0, -10, 360, 380]}
      width={size}
      height={at((size * 380) / 360)}
    >
      <defs>
        <Hatch id={`${id}zone`} pitch={5} line={0.75} />
      </defs>
      <circle cx={C} cy={C} r={128} className="w f-paper" />
      {forbidden.map((zone) => (
        <Zone key={`${zone.from}-${zone.to}`} zone={zone} pattern={`${id}zone`} />
      ))}
      <circle cx={C} cy={C} r={64} className="n f-paper" />
      <path
        d="M136 152a24 24 0 0 1 40-10v14a20 20 0 0 1-40-4ZM224 152a24 24 0 0 0-40-10v14a20 20 0 0 0 40-4ZM140 206a20 20 0 0 0 36 8v-12a18 18 0 0 0-36 4ZM220 206a20 20 0 0 1-36 8v-12a18 18 0 0 1 36 4Z"
        className="n"
      />
      <path d="M32 180H328M180 32V328" className="cl" />
      <path d="M116 171H150M116 189H150M244 171H210M244 189H210" className="hid" />
      <path d="M180 12l-8 14h16z" className="f-ink" />
      <text x={166} y={24} textAnchor="end" className="tx2">
        {words.rings.exhaust}
      </text>
      <text x={C} y={358} textAnchor="middle" className="tx2">
        {words.rings.intake}
      </text>
      <text x={4} y={172} className="tx2">
        {words.rings.pin}
      </text>
      {gaps.map((gap, index) => (
        <Ring key={gap.mark} gap={gap} radius={118 - index * step} reach={reaches[index] ?? 152} />
      ))}
    </Drawing>
  );
}

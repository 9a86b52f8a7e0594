import { bandHatch } from './band-hatch.ts';
import { at } from './coordinates.ts';
import type { LimitAxis, LimitFacts } from './limit-axis.ts';

export type StripScale = {
  readonly place: (value: number) => number;
  /** Height of the strip's middle line, px. */
  readonly middle: number;
  readonly width: number;
};

type Props = {
  readonly facts: LimitFacts;
  readonly axis: LimitAxis;
  readonly scale: StripScale;
};

/** Within service hatched, past the limit cross-hatched, the standard open. */
type Hatching = { readonly pitch: number; readonly line: number; readonly crossed: boolean };
const service: Hatching = { pitch: 6, line: 0.8, crossed: false };
const past: Hatching = { pitch: 4, line: 0.9, crossed: true };

type Band = { readonly name: string; readonly from: number; readonly to: number; readonly hatching?: Hatching };

function bands({ facts, axis }: Omit<Props, 'scale'>): Band[] {
  const { low, high } = axis;
  const lower = facts.lower ?? null;
  const upper = facts.upper ?? null;
  const from = facts.standard?.[0] ?? (facts.standard === undefined ? null : (lower ?? low));
  const to = facts.standard?.[1] ?? (facts.standard === undefined ? null : (upper ?? high));
  const all: Band[] = [];
  if (lower !== null) all.push({ name: 'past-lower', from: low, to: lower, hatching: past });
  if (upper !== null) all.push({ name: 'past-upper', from: upper, to: high, hatching: past });
  if (from === null || to === null) {
    if (lower !== null || upper !== null)
      all.push({ name: 'service', from: lower ?? low, to: upper ?? high, hatching: service });
    return all;
  }
  if (lower !== null) all.push({ name: 'service-lower', from: lower, to: from, hatching: service });
  if (upper !== null) all.push({ name: 'service-upper', from: to, to: upper, hatching: service });
  all.push({ name: 'standard', from, to });
  return all;
}

export function StripBands({ facts, axis, scale }: Props) {
  const { place, middle, width } = scale;
  const inside = (value: number) => at(place(Math.min(Math.max(value, axis.low), axis.high)));
  const standard: readonly (number | null)[] = facts.standard ?? [];
  const ends = standard.filter((end) => end !== null).filter((end) => end > axis.low && end < axis.high);
  return (
    <>
      {bands({ facts, axis }).map(({ name, from, to, hatching }) => {
        const [x, length] = [inside(from), at(inside(to) - inside(from))];
        const box = { x, y: middle - 8, width: length, height: 16 };
        if (length <= 0) return null;
        return (
          <g key={name} data-band={name}>
            <rect {...box} {...(hatching === undefined ? { className: 'stdband' } : {})} />
            {hatching === undefined ? null : (
              <path className="hl" strokeWidth={hatching.line} d={bandHatch(box, hatching.pitch, hatching.crossed)} />
            )}
          </g>
        );
      })}
      <path d={`M8 ${middle + 8}H${width - 8}`} className="n" />
      {ends.map((end) => (
        <path key={end} d={`M${at(place(end))} ${middle - 8}V${middle + 12}`} className="n" data-mark="standard" />
      ))}
      {([facts.lower, facts.upper] as const).map((limit, side) =>
        limit === null || limit === undefined ? null : (
          <path
            key={side === 0 ? 'lower' : 'upper'}
            d={`M${at(place(limit))} ${middle - 14}V${middle + 14}`}
            className="lim"
            data-mark={side === 0 ? 'lower' : 'upper'}
          />
        ),
      )}
    </>
  );
}

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placeRings, type Ring, type RingClock } from '#domain/build/ring-clock.ts';
import { standardGaps, usualGapRule } from '#domain/build/ring-rule.ts';
import { microDegrees } from '#domain/units/quantity.ts';

const degrees = (value: number) => microDegrees(Math.round(value * 1e6));
const zone = (from: number, to: number) => ({ from: degrees(from), to: degrees(to), reason: 'over the pin' });
const ring = (code: string, more: Partial<Ring> = {}): Ring => ({ code, name: code, makersAngle: null, ...more });
const fourStroke = [
  ring('top'),
  ring('second'),
  ring('spacer', { part: 'spacer' }),
  ring('upper', { part: 'rail' }),
  ring('lower', { part: 'rail' }),
];
const clock = (changes: Partial<RingClock> = {}): RingClock => ({
  rings: fourStroke,
  zones: [],
  leastSeparation: degrees(90),
  railOffset: degrees(30),
  angleTolerance: null,
  ...changes,
});
const found = (of: RingClock, rule = usualGapRule) => {
  const gaps = standardGaps(of, rule);
  return gaps.ok ? Object.fromEntries(gaps.gaps.map(({ ring: code, angle }) => [code, angle / 1e6])) : gaps;
};

describe('standard ring gaps', () => {
  it('sets compression rings across, the spacer square to them, a rail either side of it', () => {
    expect(found(clock())).toEqual({ top: 45, second: 225, spacer: 135, upper: 90, lower: 180 });
  });

  it('has offsets of their own for the spacer and the rails', () => {
    const rule = { start: degrees(30), spacerOffset: degrees(100), railOffset: degrees(35) };
    expect(found(clock({ leastSeparation: degrees(60) }), rule)).toEqual({
      top: 30,
      second: 210,
      spacer: 130,
      upper: 95,
      lower: 165,
    });
  });

  it('moves a gap by the fewest degrees out of a zone', () => {
    const gaps = found(clock({ zones: [zone(80, 95), zone(170, 181)] }));
    expect(gaps).toEqual({ top: 45, second: 225, spacer: 135, upper: 96, lower: 182 });
  });

  it('goes where the maker says first, and about it with the rest', () => {
    const rings = [ring('top', { makersAngle: degrees(60) }), ...fourStroke.slice(1)];
    expect(found(clock({ rings }))).toEqual({ top: 60, second: 240, spacer: 150, upper: 105, lower: 195 });
  });

  it('never turns a ring on a pin, which stands over a zone if its maker put it there', () => {
    const rings = [ring('top', { pin: degrees(150) }), ring('second', { pin: degrees(180) })];
    const of = clock({ rings, zones: [zone(170, 190)] });
    expect(standardGaps(of)).toEqual({
      ok: true,
      gaps: [
        { ring: 'top', angle: degrees(150), by: 'pin' },
        { ring: 'second', angle: degrees(180), by: 'pin' },
      ],
    });
    const stands = placeRings(of, [
      { ring: 'top', angle: degrees(150) },
      { ring: 'second', angle: degrees(200) },
    ]);
    expect(stands[0]).toEqual({ ring: 'top', ok: true });
    expect(stands[1]).toEqual({ ring: 'second', ok: false, faults: [{ kind: 'off-its-pin', pin: degrees(180) }] });
  });

  it('says which ring finds no place', () => {
    expect(standardGaps(clock({ zones: [zone(0, 300)], leastSeparation: degrees(90) }))).toEqual({
      ok: false,
      reason: 'no-room',
      ring: 'second',
    });
  });

  it('stands well by the same rule that judges a placement, wherever zones lie', () => {
    const arc = fc.tuple(fc.integer({ min: 0, max: 359 }), fc.integer({ min: 1, max: 25 }));
    fc.assert(
      fc.property(fc.array(arc, { maxLength: 3 }), fc.integer({ min: 0, max: 60 }), (arcs, least) => {
        const zones = arcs.map(([from, wide]) => zone(from, (from + wide) % 360));
        const of = clock({ zones, leastSeparation: degrees(least) });
        const gaps = standardGaps(of);
        if (gaps.ok) expect(placeRings(of, gaps.gaps).every(({ ok }) => ok)).toBe(true);
      }),
    );
  });
});

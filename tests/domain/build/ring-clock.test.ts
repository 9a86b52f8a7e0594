import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isInZone, placeRings, type RingClock, separation } from '#domain/build/ring-clock.ts';
import { microDegrees } from '#domain/units/quantity.ts';

const degrees = (value: number) => microDegrees(Math.round(value * 1e6));
const overThePin = { from: degrees(80), to: degrees(100), reason: 'over the pin' };
const thrustSide = { from: degrees(350), to: degrees(10), reason: 'thrust side' };

const clock = (changes: Partial<RingClock> = {}): RingClock => ({
  rings: [
    { code: 'top', name: 'top ring', makersAngle: degrees(30) },
    { code: 'second', name: 'second ring', makersAngle: degrees(210) },
    { code: 'spacer', name: 'oil spacer', makersAngle: null },
  ],
  zones: [overThePin, thrustSide],
  leastSeparation: degrees(45),
  angleTolerance: degrees(10),
  ...changes,
});

const placed = (angles: Readonly<Record<string, number>>) =>
  Object.entries(angles).map(([ring, angle]) => ({ ring, angle: degrees(angle) }));

describe('the ring clock', () => {
  it('is content with gaps well apart, clear of pin and thrust side', () => {
    const verdict = placeRings(clock(), placed({ top: 30, second: 210, spacer: 300 }));
    expect(verdict).toEqual([
      { ring: 'top', ok: true },
      { ring: 'second', ok: true },
      { ring: 'spacer', ok: true },
    ]);
  });

  it('names a ring that nobody has placed', () => {
    expect(placeRings(clock(), placed({ top: 30, second: 210 }))[2]).toEqual({
      ring: 'spacer',
      ok: false,
      faults: [{ kind: 'not-placed' }],
    });
  });

  it('tells both of two gaps that are too close, also across the arrow', () => {
    const free = clock({ zones: [], angleTolerance: null });
    const verdict = placeRings(free, placed({ top: 340, second: 10, spacer: 200 }));
    const least = degrees(45);
    expect(verdict).toEqual([
      { ring: 'top', ok: false, faults: [{ kind: 'too-close', to: 'second', separation: degrees(30), least }] },
      { ring: 'second', ok: false, faults: [{ kind: 'too-close', to: 'top', separation: degrees(30), least }] },
      { ring: 'spacer', ok: true },
    ]);
  });

  it('takes gaps exactly the least separation apart', () => {
    const free = clock({ zones: [], angleTolerance: null });
    expect(placeRings(free, placed({ top: 0, second: 45, spacer: 90 })).every(({ ok }) => ok)).toBe(true);
  });

  it('refuses a gap over the pin or on the thrust side, the edges included', () => {
    const free = clock({ angleTolerance: null, leastSeparation: null });
    for (const angle of [80, 90, 100]) {
      expect(placeRings(free, placed({ top: angle, second: 210, spacer: 300 }))[0]).toEqual({
        ring: 'top',
        ok: false,
        faults: [{ kind: 'in-forbidden-zone', zone: overThePin }],
      });
    }
    for (const angle of [350, 0, 10]) expect(isInZone(degrees(angle), thrustSide)).toBe(true);
    for (const angle of [349, 11, 180]) expect(isInZone(degrees(angle), thrustSide)).toBe(false);
  });

  it('tells how far a gap is from the maker’s place', () => {
    expect(placeRings(clock(), placed({ top: 45, second: 210, spacer: 300 }))[0]).toMatchObject({
      faults: [{ kind: 'away-from-makers-angle', makersAngle: degrees(30), by: degrees(15) }],
    });
  });

  it('takes no angle beyond a full turn', () => {
    expect(placeRings(clock(), placed({ top: 360, second: 210, spacer: 300 }))[0]).toMatchObject({
      faults: [{ kind: 'angle-out-of-turn' }],
    });
  });

  it('lets the later placement of a ring count', () => {
    const again = [...placed({ top: 90, second: 210, spacer: 300 }), ...placed({ top: 32 })];
    expect(placeRings(clock(), again).every(({ ok }) => ok)).toBe(true);
  });

  it('judges alike when piston, zones and gaps are turned together', () => {
    const free = clock({ angleTolerance: null });
    const turned = (angle: number, by: number) => microDegrees((angle + by) % 360_000_000);
    const angle = fc.integer({ min: 0, max: 359_999_999 });
    fc.assert(
      fc.property(angle, angle, angle, angle, (top, second, spacer, by) => {
        const gaps = Object.entries({ top, second, spacer });
        const zones = free.zones.map((zone) => ({ ...zone, from: turned(zone.from, by), to: turned(zone.to, by) }));
        const before = placeRings(
          free,
          gaps.map(([ring, at]) => ({ ring, angle: microDegrees(at) })),
        );
        const after = placeRings(
          { ...free, zones },
          gaps.map(([ring, at]) => ({ ring, angle: turned(at, by) })),
        );
        expect(after.map(({ ok }) => ok)).toEqual(before.map(({ ok }) => ok));
        expect(separation(microDegrees(top), microDegrees(second))).toBeLessThanOrEqual(180_000_000);
      }),
    );
  });
});

describe('a mark on a ring', () => {
  const faces = (asked: 'crown' | 'skirt' | 'either' | undefined, seen: 'crown' | 'skirt' | undefined) =>
    placeRings(clock({ rings: [{ code: 'top', name: 'top ring', makersAngle: null, faces: asked }], zones: [] }), [
      { ring: 'top', angle: degrees(30), faces: seen },
    ])[0];

  it('has to be looked at where it has a way to face', () => {
    expect(faces('crown', undefined)).toMatchObject({ faults: [{ kind: 'mark-not-seen', faces: 'crown' }] });
    expect(faces('skirt', undefined)).toMatchObject({ faults: [{ kind: 'mark-not-seen', faces: 'skirt' }] });
  });

  it('is told when the ring lies upside down', () => {
    expect(faces('crown', 'skirt')).toMatchObject({ faults: [{ kind: 'mark-wrong-way', faces: 'crown' }] });
    expect(faces('skirt', 'crown')).toMatchObject({ faults: [{ kind: 'mark-wrong-way', faces: 'skirt' }] });
    expect(faces('skirt', 'skirt')).toEqual({ ring: 'top', ok: true });
  });

  it('is left alone on a ring that goes either way, and where nothing is asked of it', () => {
    for (const asked of ['either', undefined] as const)
      for (const seen of ['crown', 'skirt', undefined] as const)
        expect(faces(asked, seen)).toEqual({ ring: 'top', ok: true });
  });

  it('is not asked for before the ring is on', () => {
    const bare = clock({ rings: [{ code: 'top', name: 'top ring', makersAngle: null, faces: 'crown' }] });
    expect(placeRings(bare, [])).toEqual([{ ring: 'top', ok: false, faults: [{ kind: 'not-placed' }] }]);
  });
});

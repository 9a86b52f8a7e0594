import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  gapAfterBoring,
  metalLeft,
  type PistonAtHand,
  pistonsForeseen,
  resurfacingForeseen,
} from '#domain/metrology/predictions.ts';
import { cubicMillimetres } from '#domain/units/quantity.ts';
import { mm } from './measuring-bench.ts';

describe('ring gap after boring', () => {
  it('0.33 in a bore opened by 0.03 becomes 0.424: inside 0.30 to 0.45, outside to 0.40', () => {
    const gap = { low: mm(0.33), high: mm(0.33) };
    const bore = { now: mm(88), opened: mm(88.03) };
    const found = gapAfterBoring(gap, bore, { low: mm(0.3), high: mm(0.45) });
    expect((found.gap.low / 1e6).toFixed(3)).toBe('0.424');
    expect(found.outlook).toBe('inside');
    expect(gapAfterBoring(gap, bore, { high: mm(0.4) }).outlook).toBe('outside');
    expect(gapAfterBoring({ low: mm(0.3), high: null }, bore, { high: mm(0.5) }).outlook).toBe('partly');
  });
});

const piston = (code: string, low: number, high: number, sizeClass = 'standard'): PistonAtHand => ({
  code,
  sizeClass,
  low: mm(low),
  high: mm(high),
  available: 1,
});
const standard = { low: mm(0.03), high: mm(0.06) };

describe('clearance with each piston at hand', () => {
  const bore = { low: mm(88.02), high: mm(88.048), expanded: mm(0.004), largest: mm(88.55) };
  const pistons = [
    piston('first oversize', 88.205, 88.215, '+0.25'),
    piston('standard A', 87.955, 87.962),
    piston('second oversize', 88.455, 88.465, '+0.50'),
    piston('third oversize', 88.705, 88.715, '+0.75'),
  ];
  const found = pistonsForeseen(bore, pistons, standard);
  const of = (code: string) => found.find((each) => each.piston.code === code);

  it('standard pistons run too loose in the worn bore, and no honing helps', () => {
    expect(of('standard A')).toMatchObject({
      clearance: { low: mm(88.02) - mm(0.004) - mm(87.962), high: mm(88.048) + mm(0.004) - mm(87.955) },
      outlook: 'partly',
      remove: null,
    });
  });

  it('the first oversize asks for 88.245 to 88.265: 0.225 to 0.245 off the diameter, and comes first', () => {
    expect(of('first oversize')).toMatchObject({
      boreTo: { low: mm(88.245), high: mm(88.265) },
      remove: { least: mm(0.225), most: mm(0.245) },
      outlook: 'outside',
    });
    expect(found[0]?.piston.code).toBe('first oversize');
  });

  it('none that would be opened past the largest the cylinder may be, none in a plated bore', () => {
    expect(of('second oversize')?.remove).not.toBeNull();
    expect(of('third oversize')?.remove).toBeNull();
    for (const each of pistonsForeseen({ ...bore, plated: true }, pistons, standard)) expect(each.remove).toBeNull();
  });

  it('a piston whose own tolerance is wider than the clearance allows has no bore that suits it', () => {
    expect(pistonsForeseen(bore, [piston('loose', 88.2, 88.24)], standard)[0]).toMatchObject({
      boreTo: null,
      remove: null,
    });
  });

  it('whatever is removed as foreseen gives every size of that piston a standard clearance', () => {
    const size = fc.integer({ min: mm(88), max: mm(89) });
    fc.assert(
      fc.property(
        size,
        fc.nat(40_000),
        size,
        fc.nat(35_000),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (low, taper, from, width, share) => {
          const worn = { low, high: low + taper, expanded: 2000 };
          const at: PistonAtHand = { code: 'p', sizeClass: '', low: from, high: from + width, available: 1 };
          const [one] = pistonsForeseen(worn, [at], standard);
          if (one?.remove === null || one === undefined) return;
          const { least, most } = one.remove;
          const then = low + least + share * (most - least);
          expect(then).toBeGreaterThanOrEqual(worn.high);
          expect(then - at.high).toBeGreaterThanOrEqual(standard.low - 1);
          expect(then - at.low).toBeLessThanOrEqual(standard.high + 1);
        },
      ),
    );
  });
});

describe('resurfacing', () => {
  const facts = { swept: cubicMillimetres(355_801), clearance: cubicMillimetres(27_400), opening: mm(88) };

  it('0.20 mm off an 88 mm face takes 1.216 cm³ and lifts 13.99 to 14.59', () => {
    const found = resurfacingForeseen({ ...facts, remove: mm(0.2), removedBefore: mm(0.05), allowed: mm(0.2) });
    if (!found.ok) throw new Error(found.reason);
    expect(found.before).toBeCloseTo(13.99, 2);
    expect(found.clearanceVolume).toBe(27_400 - 1216);
    expect(found.after).toBeCloseTo(1 + 355_801 / 26_184, 9);
    expect(found.left).toBe(-mm(0.05));
    expect(resurfacingForeseen({ ...facts, remove: mm(0.1) })).toMatchObject({ left: null });
  });

  it('more than there is leaves nothing above the piston', () => {
    expect(resurfacingForeseen({ ...facts, remove: mm(5) })).toEqual({
      ok: false,
      reason: 'nothing-left-above-the-piston',
    });
  });

  it('metal left in a bore, over the diameter and per side', () => {
    expect(metalLeft(mm(88.048), mm(88.55))).toEqual({ onDiameter: mm(0.502), perSide: mm(0.251) });
  });
});

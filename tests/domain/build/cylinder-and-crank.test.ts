import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { camFigures } from '#domain/build/cams.ts';
import { effectiveCompressionRatio, meanPistonSpeed, pistonBelowTop, valveToPiston } from '#domain/build/crank.ts';
import { clearanceVolume, compressionRatio, discVolume, displacement, squish } from '#domain/build/cylinder.ts';
import { gapGrowth, taperFromGaps } from '#domain/build/ring-gap.ts';
import { cubicMillimetres, microDegrees, nanometres } from '#domain/units/quantity.ts';

const mm = (value: number) => nanometres(Math.round(value * 1e6));
const degrees = (value: number) => microDegrees(Math.round(value * 1e6));
const cm3 = (value: number) => cubicMillimetres(Math.round(value * 1000));

describe('a cylinder', () => {
  it('of 88.0 × 58.5 mm displaces 355.80 cm³, at 92.0 mm 388.89', () => {
    expect(displacement({ bore: mm(88), stroke: mm(58.5), cylinders: 1 }) / 1000).toBeCloseTo(355.8, 2);
    expect(displacement({ bore: mm(92), stroke: mm(58.5), cylinders: 1 }) / 1000).toBeCloseTo(388.89, 2);
  });

  it('with 27.4 cm³ left above the piston has a ratio of 13.99', () => {
    expect(compressionRatio(cm3(355.8), cm3(27.4))).toBeCloseTo(13.99, 2);
    expect(compressionRatio(cm3(355.8), cm3(0))).toBeUndefined();
  });

  it('adds up what is left: chamber, gasket and deck, less the dome', () => {
    const gasket = discVolume(mm(89), mm(0.6));
    expect(gasket / 1000).toBeCloseTo(3.733, 3);
    expect(discVolume(mm(88), mm(-0.2)) / 1000).toBeCloseTo(-1.216, 3);
    expect(clearanceVolume({ chamber: cm3(26), gasket, deck: cm3(1.2), crown: cm3(-3.5) }) / 1000).toBeCloseTo(27.433);
  });

  it('has a squish of deck plus gasket, less when the piston stands proud', () => {
    expect(squish(mm(0.3), mm(0.6))).toBe(mm(0.9));
    expect(squish(mm(-0.1), mm(0.6))).toBe(mm(0.5));
  });
});

describe('a crank of 58.5 mm stroke with a rod of 103 mm', () => {
  const crank = { stroke: mm(58.5), rod: mm(103) };

  it('has its piston 43.84 mm down when the intake closes 68° after the bottom, and a ratio of 10.73 from there', () => {
    expect((pistonBelowTop(crank, degrees(112)) ?? 0) / 1e6).toBeCloseTo(43.84, 2);
    const facts = { bore: mm(88), crank, clearance: cm3(27.4), intakeClosesAfterBottom: degrees(68) };
    expect(effectiveCompressionRatio(facts)).toBeCloseTo(10.73, 2);
  });

  it('moves its piston from nothing to the whole stroke, alike before and after the top', () => {
    expect(pistonBelowTop(crank, degrees(0))).toBe(0);
    expect(pistonBelowTop(crank, degrees(180))).toBe(mm(58.5));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 180_000_000 }), (angle) => {
        const below = pistonBelowTop(crank, microDegrees(angle)) ?? Number.NaN;
        expect(below).toBeGreaterThanOrEqual(0);
        expect(below).toBeLessThanOrEqual(mm(58.5));
        expect(pistonBelowTop(crank, microDegrees(360_000_000 - angle))).toBe(below);
      }),
    );
  });

  it('runs at 22.43 m/s on the mean at 11 500', () => {
    expect(meanPistonSpeed(crank.stroke, 11_500)).toBeCloseTo(22.43, 2);
  });

  it('comes nearest to a valve somewhere else than at the top', () => {
    const valve = { clearanceAtTop: mm(4), lift: mm(3), valveAngle: degrees(12) };
    expect(valveToPiston(crank, { ...valve, lift: mm(0), afterTop: degrees(0) })).toBe(mm(4));
    const atTen = valveToPiston(crank, { ...valve, afterTop: degrees(10) }) ?? Number.NaN;
    const below = pistonBelowTop(crank, degrees(10)) ?? Number.NaN;
    expect(atTen / 1e6).toBeCloseTo(1 + (below / 1e6) * 0.97815, 4);
  });

  it('can’t turn when the rod is shorter than the throw', () => {
    const stub = { stroke: mm(58.5), rod: mm(29) };
    expect(pistonBelowTop(stub, degrees(30))).toBeUndefined();
    expect(
      valveToPiston(stub, { clearanceAtTop: mm(1), lift: mm(1), valveAngle: degrees(0), afterTop: degrees(0) }),
    ).toBe(undefined);
  });
});

describe('cams', () => {
  it('that open and close at 32/68 and 70/30 stand at 108° and 110°, 109° apart, with 62° of overlap', () => {
    const figures = camFigures({
      intakeOpensBeforeTop: degrees(32),
      intakeClosesAfterBottom: degrees(68),
      exhaustOpensBeforeBottom: degrees(70),
      exhaustClosesAfterTop: degrees(30),
    });
    expect(figures).toEqual({
      intakeDuration: degrees(280),
      exhaustDuration: degrees(280),
      intakeCentreAfterTop: degrees(108),
      exhaustCentreBeforeTop: degrees(110),
      lobeSeparation: degrees(109),
      overlap: degrees(62),
    });
  });
});

describe('a ring’s gap', () => {
  it('opens by π times what the bore gains', () => {
    expect(gapGrowth(mm(0.03)) / 1e6).toBeCloseTo(0.0942, 4);
  });

  it('of 0.42 at the top and 0.33 at the bottom tells a taper of 0.0286', () => {
    expect(taperFromGaps(mm(0.42), mm(0.33)) / 1e6).toBeCloseTo(0.0286, 4);
  });
});

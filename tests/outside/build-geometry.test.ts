// Source: plain geometry, worked out by a separate script (data/build-geometry.json), with one case of classic textbook
// arithmetic (4.000 × 3.480 in × 8). Piston position and speed are checked against a numerical solution that uses none
// of the closed formula. Ring gap factors: common practice, no source.
import { describe, expect, it } from 'vitest';
import { meanPistonSpeed, pistonBelowTop } from '#domain/build/crank.ts';
import { compressionRatio, displacement, sweptVolume } from '#domain/build/cylinder.ts';
import { ruleOfThumbGap } from '#domain/build/ring-gap.ts';
import { cubicMillimetres, microDegrees, nanometres, partsPerMillion } from '#domain/units/quantity.ts';
import geometry from './data/build-geometry.json' with { type: 'json' };

const mm = (value: number) => nanometres(Math.round(value * 1e6));

describe('displacement, ratio and piston speed', () => {
  it.each(geometry.cases)('$bore_mm × $stroke_mm, $cyl cylinders', (engine) => {
    const size = { bore: mm(engine.bore_mm), stroke: mm(engine.stroke_mm), cylinders: engine.cyl };
    expect(displacement(size) / 1000).toBeCloseTo(engine.disp_cm3, 3);
    const swept = sweptVolume(size.bore, size.stroke);
    for (const { CR, Vc_cm3 } of engine.Vc_for_CR) {
      expect(compressionRatio(swept, cubicMillimetres(Math.round(Vc_cm3 * 1000)))).toBeCloseTo(CR, 3);
    }
    for (const { rpm, m_s } of engine.piston_speed_at) expect(meanPistonSpeed(size.stroke, rpm)).toBeCloseTo(m_s, 4);
  });

  it('agrees with the textbook’s inches', () => {
    const { bore_in, stroke_in, cyl, disp_in3, disp_cm3 } = geometry.unit_check;
    const size = { bore: mm(bore_in * 25.4), stroke: mm(stroke_in * 25.4), cylinders: cyl };
    expect(displacement(size) / 16_387.064).toBeCloseTo(disp_in3, 3);
    expect(displacement(size) / 1000).toBeCloseTo(disp_cm3, 1);
  });
});

describe('slider-crank', () => {
  const throwOfCrank = 29.25;
  const rod = 103;

  /** Height of the piston pin above the crank's centre: the point on the bore's axis one rod's length from the crank pin. */
  const pinHeight = (radians: number): number => {
    const crankPin = { x: throwOfCrank * Math.sin(radians), y: throwOfCrank * Math.cos(radians) };
    let low = crankPin.y;
    let high = crankPin.y + 2 * rod;
    for (let step = 0; step < 200; step += 1) {
      const middle = (low + high) / 2;
      if (Math.hypot(crankPin.x, middle - crankPin.y) < rod) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  };

  it.each([0, 1, 17, 45, 77.5, 90, 112, 135, 180, 221, 270, 359])(
    'at %d° the pin is where the rod reaches',
    (degrees) => {
      const expected = throwOfCrank + rod - pinHeight((degrees * Math.PI) / 180);
      const below = pistonBelowTop({ stroke: mm(2 * throwOfCrank), rod: mm(rod) }, microDegrees(degrees * 1e6));
      expect((below ?? Number.NaN) / 1e6).toBeCloseTo(expected, 6);
    },
  );

  it('has a mean speed that is the integral of |dx/dt| over a turn', () => {
    const steps = 3600;
    const secondsPerStep = 60 / 11_500 / steps;
    let integral = 0;
    for (let step = 0; step < steps; step += 1) {
      const from = pinHeight((2 * Math.PI * step) / steps);
      const to = pinHeight((2 * Math.PI * (step + 1)) / steps);
      integral += (Math.abs(to - from) / 1000 / secondsPerStep) * secondsPerStep;
    }
    expect(meanPistonSpeed(mm(2 * throwOfCrank), 11_500)).toBeCloseTo(integral / (60 / 11_500), 6);
  });
});

describe('ring gap by the rule of thumb', () => {
  it.each(geometry.ring_gap_cases)('in a bore of $bore_mm mm', ({ bore_mm, gap_mm_0p004, gap_mm_0p0045 }) => {
    expect(ruleOfThumbGap(mm(bore_mm), partsPerMillion(4000)) / 1e6).toBeCloseTo(gap_mm_0p004, 6);
    expect(ruleOfThumbGap(mm(bore_mm), partsPerMillion(4500)) / 1e6).toBeCloseTo(gap_mm_0p0045, 6);
  });
});

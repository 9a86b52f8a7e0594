import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { benchCheckWords } from '#domain/metrology/cross-check-words.ts';
import {
  type BenchCheck,
  clearanceCheck,
  growthCheck,
  instrumentChecks,
  peopleCheck,
  platedCheck,
  taperCheck,
} from '#domain/metrology/cross-checks.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { boreGauge, feelers, mm } from './measuring-bench.ts';

const printed = (value: number): string => `${formatQuantity(value, 'mm', 3)} mm`;
const words = (check: BenchCheck | undefined, name = 'Top ring, end gap'): string =>
  check === undefined ? '' : benchCheckWords(check, { name, printed });
const gap = (low: number, high: number | null) => ({ low: mm(low), high: high === null ? null : mm(high) });

describe('ring gap and bore gauge', () => {
  it('gaps of 0.40 to 0.45 on top and 0.30 to 0.35 below stand for a taper of 0.016 to 0.048', () => {
    const gaps = { top: gap(0.4, 0.45), bottom: gap(0.3, 0.35) };
    const agreeing = taperCheck(gaps, { value: mm(0.02), standard: 1000 });
    expect(agreeing.agrees).toBe(true);
    expect(words(agreeing)).toContain('between 0.016 mm and 0.048 mm; the bore gauge says 0.020 mm. They agree.');
    const not = taperCheck(gaps, { value: mm(0.005), standard: 1000 });
    expect(not.agrees).toBe(false);
    expect(words(not)).toContain('measure both again');
  });

  it('after honing 0.03 the same ring gaps 0.094 wider, or the gauge or the ring is another', () => {
    const gaps = { before: gap(0.3, 0.3), after: gap(0.394, 0.394) };
    expect(growthCheck(gaps, { value: mm(0.03), standard: 500 }).agrees).toBe(true);
    const not = growthCheck(gaps, { value: mm(0.06), standard: 500 });
    expect(not.agrees).toBe(false);
    expect(words(not)).toMatch(/has grown between 0\.030 mm and 0\.030 mm; the bore gauge says 0\.060 mm/);
  });

  it('without an upper end nothing contradicts from above', () => {
    const check = growthCheck({ before: gap(0.3, 0.35), after: gap(0.5, null) }, { value: mm(0.5), standard: 0 });
    expect(check.agrees).toBe(true);
    expect(words(check)).toContain('0.048 mm or more');
  });

  it('what geometry gives is never contradicted', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -50_000, max: 90_000 }),
        fc.integer({ min: 200_000, max: 600_000 }),
        fc.nat(50_000),
        (growth, low, width) => {
          const before = { low, high: low + width };
          const after = { low: low + Math.PI * growth, high: low + width + Math.PI * growth };
          expect(growthCheck({ before, after }, { value: growth, standard: 1 }).agrees).toBe(true);
        },
      ),
    );
  });
});

describe('piston and clearance against the bore', () => {
  const sizes = { bore: { value: mm(88.04), standard: 1000 }, piston: { value: mm(87.97), standard: 1000 } };

  it('bore less piston is 0.070: a feeler between 0.05 and 0.08 agrees, one between 0.08 and 0.10 does not', () => {
    expect(clearanceCheck(gap(0.05, 0.08), sizes).agrees).toBe(true);
    const not = clearanceCheck(gap(0.08, 0.1), sizes);
    expect(not.agrees).toBe(false);
    expect(words(not, 'Clearance')).toBe(
      'Clearance by feeler is between 0.080 mm and 0.100 mm; bore less piston is 0.070 mm. One of the three is wrong: measure them again.',
    );
  });

  it('both gauges’ uncertainties count', () => {
    expect(clearanceCheck(gap(0.074, 0.1), sizes).agrees).toBe(false);
    expect(clearanceCheck(gap(0.0728, 0.1), sizes).agrees).toBe(true);
  });
});

describe('people and instruments', () => {
  it('two people who differ by more than both uncertainties are told by name and by how much', () => {
    const check = peopleCheck(
      { name: 'Ines', value: mm(88.01), standard: 1000 },
      { name: 'Tom', value: mm(88.02), standard: 1000 },
    );
    expect(check.agrees).toBe(false);
    expect(words(check, 'Bore')).toContain('Ines and Tom differ by 0.010 mm on Bore');
    expect(
      peopleCheck({ name: 'Ines', value: 0, standard: 1000 }, { name: 'Tom', value: 2000, standard: 1000 }).agrees,
    ).toBe(true);
  });

  it('out of date, out of range, too coarse: each with its figures, all at once', () => {
    const poor: Instrument = {
      ...boreGauge,
      calibrationDue: '2026-01-31',
      range: { low: mm(50), high: mm(80) },
      resolution: mm(0.01),
      mpe: mm(0.02),
    };
    const checks = instrumentChecks(poor, { on: '2026-02-01', value: mm(88), tolerance: mm(0.015) });
    expect(checks.map(({ code }) => code)).toEqual([
      'instrument-out-of-date',
      'instrument-out-of-range',
      'instrument-too-coarse',
    ]);
    expect(checks.map((check) => words(check, 'the bore'))).toEqual([
      'bore gauge 1 was due for calibration on 2026-01-31: take another, or have it checked.',
      '88.000 mm is outside the range of bore gauge 1, 50.000 mm to 80.000 mm: take another.',
      'bore gauge 1 is good to ± 0.024 mm at best, more than a quarter of the 0.015 mm that the bore allows: take a finer one.',
    ]);
    expect(instrumentChecks(poor, { on: '2026-01-31' })).toEqual([]);
    expect(instrumentChecks(boreGauge, { on: '2026-02-01', value: mm(88), tolerance: mm(0.015) })).toEqual([]);
    // A feeler’s width says for itself how much it tells.
    expect(instrumentChecks(feelers, { on: '2026-02-01', tolerance: 1 })).toEqual([]);
  });

  it('a plated bore is neither bored nor stone-honed; anything else may be', () => {
    expect(words(platedCheck(true, 'bore'), 'The bore')).toBe(
      'The bore is plated: it is never bored to size. Replate or renew it.',
    );
    expect(words(platedCheck(true, 'hone'), 'The bore')).toContain('stone-honed');
    expect(platedCheck(true, 'replate')).toBeUndefined();
    expect(platedCheck(false, 'bore')).toBeUndefined();
  });
});

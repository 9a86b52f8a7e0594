import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatDifference, formatQuantity } from '#domain/units/format-quantity.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { coarsestOf, printedFigures } from '#domain/units/printed-figures.ts';
import { baseQuantity, millikelvin, nanometres } from '#domain/units/quantity.ts';
import { findUnitCode, unitCodes, unitOf, unitsOfKind } from '#domain/units/unit-table.ts';

describe('keying a figure', () => {
  it.each([
    ['88.012', 'mm', 88_012_000, 3],
    ['88,012', 'mm', 88_012_000, 3],
    [' 88.0120 ', 'mm', 88_012_000, 4],
    ['.5', 'in', 12_700_000, 1],
    ['5.', 'um', 5000, 0],
    ['-0.02', 'mm', -20_000, 2],
    ['\u22120.02', 'mm', -20_000, 2],
    ['+3', 'thou', 76_200, 0],
    ['3 1/2', 'in', 88_900_000, 1],
    ['3/4', 'in', 19_050_000, 2],
    ['-1 1/4', 'in', -31_750_000, 2],
    ['2/4', 'in', 12_700_000, 1],
  ])('"%s" %s is %d nm with %d decimals', (text, unit, value, decimals) => {
    expect(parseQuantity(text, unit, 'length')).toEqual({ ok: true, value, rounded: false, decimals });
  });

  it.each([
    ['1,234.5', 'mm', 'ambiguous-separator'],
    ['1.234,5', 'mm', 'ambiguous-separator'],
    ['1.2.3', 'mm', 'ambiguous-separator'],
    ['', 'mm', 'not-a-number'],
    ['.', 'mm', 'not-a-number'],
    ['1e3', 'mm', 'not-a-number'],
    ['88 mm', 'mm', 'not-a-number'],
    ['8 8', 'mm', 'not-a-number'],
    ['0x10', 'mm', 'not-a-number'],
    ['٣', 'mm', 'not-a-number'],
    ['Infinity', 'mm', 'not-a-number'],
    ['1'.repeat(41), 'mm', 'not-a-number'],
    ['1/2', 'mm', 'fraction-not-allowed'],
    ['1/3', 'in', 'fraction-not-allowed'],
    ['1/0', 'in', 'fraction-not-allowed'],
    ['1/256', 'in', 'fraction-not-allowed'],
    ['1 5/4', 'in', 'fraction-not-allowed'],
    ['5', 'furlong', 'unknown-unit'],
    ['5', 'toString', 'unknown-unit'],
    ['5', 'N.m', 'unit-of-another-kind'],
    ['9007200', 'm', 'too-large'],
  ])('"%s" %s is refused: %s', (text, unit, reason) => {
    expect(parseQuantity(text, unit, 'length')).toMatchObject({ ok: false, reason });
  });

  it('nothing is colder than absolute zero', () => {
    expect(parseQuantity('-273.15', 'degC', 'temperature')).toMatchObject({ ok: true, value: 0 });
    expect(parseQuantity('-273.16', 'degC', 'temperature')).toEqual({ ok: false, reason: 'below-absolute-zero' });
  });

  it('half a nanometre is rounded away from zero, and said so', () => {
    expect(parseQuantity('0.0000005', 'mm', 'length')).toMatchObject({ value: 1, rounded: true });
    expect(parseQuantity('-0.0000005', 'mm', 'length')).toMatchObject({ value: -1, rounded: true });
    expect(parseQuantity('-0.0000004', 'mm', 'length')).toMatchObject({ value: 0, rounded: true });
  });
});

describe('figures worked out of readings', () => {
  it('what is kept off a limit is two digits, never told smaller than it is, nor a tenth larger', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 9e9, noNaN: true }), fc.constantFrom('mm', 'um', 'in'), (base, unit) => {
        const told = printedFigures({ unit, decimals: 3, resolution: null }).keptOff(base);
        const figure = Number(told.split(' ')[0]);
        const exact = base / { mm: 1e6, um: 1e3, in: 25.4e6 }[unit];
        expect(figure).toBeGreaterThanOrEqual(exact * (1 - 1e-6));
        expect(figure).toBeLessThanOrEqual(exact * 1.1 * (1 + 1e-6));
        expect(told.split(' ')[0]?.replace(/^[0.]+|\.|0+$/g, '').length).toBeLessThanOrEqual(2);
      }),
    );
  });

  it.each([
    [3776, '0.0038 mm'],
    [3800, '0.0038 mm'],
    [9950, '0.010 mm'],
    [123_400_000, '130 mm'],
    [0, '0 mm'],
  ])('%d nm kept off a limit reads %s', (base, text) => {
    expect(printedFigures({ unit: 'mm', decimals: 3, resolution: null }).keptOff(base)).toBe(text);
  });

  it('a stretch in per cent is not made coarse by the caliper that its length was read with', () => {
    const caliper = { kind: 'length', resolution: 10_000 };
    const tester = { kind: 'ratio', resolution: 5_000 };
    const told = (instruments: Parameters<typeof coarsestOf>[0]) =>
      printedFigures({ unit: '%', decimals: 2, resolution: coarsestOf(instruments, 'ratio') }).workedOut(12_441);
    expect(told([caliper])).toBe('1.244 %');
    expect(told([caliper, tester])).toBe('1.24 %');
    expect(told([{ resolution: 10_000 }])).toBe('1.2 %');
    expect(coarsestOf([], 'length')).toBeNull();
  });

  it('a limit keeps every decimal it was stated with', () => {
    const { stated } = printedFigures({ unit: 'mm', decimals: 2, resolution: 10_000 });
    expect(stated(88_050_000)).toBe('88.05 mm');
    expect(stated(88_052_500)).toBe('88.0525 mm');
  });
});

describe('showing it back', () => {
  it('rounds halves away from zero and never writes a minus before nothing', () => {
    expect(formatQuantity(1500, 'um', 0)).toBe('2');
    expect(formatQuantity(-1500, 'um', 0)).toBe('-2');
    expect(formatQuantity(-400, 'mm', 3)).toBe('0.000');
    expect(formatQuantity(1499.5, 'mm', 3)).toBe('0.001');
  });

  it('a difference of temperatures has no zero of its own', () => {
    expect(formatQuantity(millikelvin(293_150), 'degC', 1)).toBe('20.0');
    expect(formatDifference(500, 'degC', 1)).toBe('0.5');
    expect(formatDifference(5000, 'degF', 1)).toBe('9.0');
  });

  it('what a gauge can show in a metric or inch length comes back digit for digit', () => {
    const decimalsOf = { mm: 6, um: 3, cm: 7, m: 9, in: 5, thou: 2 } as const;
    fc.assert(
      fc.property(
        fc.constantFrom('mm', 'um', 'cm', 'm', 'in', 'thou'),
        fc.integer({ min: -8_999_999, max: 8_999_999 }),
        fc.nat(9),
        (unit, digits, wish) => {
          const decimals = Math.min(wish, decimalsOf[unit]);
          const magnitude = String(Math.abs(digits)).padStart(decimals + 1, '0');
          const whole = magnitude.slice(0, magnitude.length - decimals);
          const text = `${digits < 0 ? '-' : ''}${whole}${decimals === 0 ? '' : `.${magnitude.slice(-decimals)}`}`;
          const parsed = parseQuantity(text, unit, 'length');
          expect(parsed).toMatchObject({ ok: true, rounded: false, decimals });
          if (parsed.ok) expect(formatQuantity(parsed.value, unit, decimals)).toBe(text);
        },
      ),
    );
  });

  it('every unit shows a whole base value with enough decimals to key it again unchanged', () => {
    fc.assert(
      fc.property(fc.constantFrom(...unitCodes), fc.integer({ min: 0, max: 10 ** 12 }), (code, value) => {
        const { kind } = unitOf(code);
        const text = formatQuantity(value, code, 15);
        expect(parseQuantity(text, code, kind)).toMatchObject({ ok: true, value });
      }),
    );
  });

  it('a comma says the same as a point', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10 ** 9 }), (value) => {
        const text = formatQuantity(value, 'mm', 6);
        expect(parseQuantity(text.replace('.', ','), 'mm', 'length')).toEqual(parseQuantity(text, 'mm', 'length'));
      }),
    );
  });
});

describe('base quantities', () => {
  it.each([0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])('%d is no whole number of nanometres', (value) => {
    expect(() => nanometres(value)).toThrow(RangeError);
  });

  it('knows no negative zero and nothing below absolute zero', () => {
    expect(Object.is(nanometres(-0), 0)).toBe(true);
    expect(() => baseQuantity('temperature', -1)).toThrow(RangeError);
  });

  it('lists units by what they measure', () => {
    expect(unitsOfKind('torque')).toContain('lbf.ft');
    expect(unitsOfKind('torque')).not.toContain('mm');
    expect(findUnitCode('N.m')).toBe('N.m');
    expect(findUnitCode('NM')).toBeUndefined();
  });
});

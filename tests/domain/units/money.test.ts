import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addMoney,
  allocateMoney,
  formatMoney,
  minorText,
  money,
  moneyFromMinorText,
  multiplyMoney,
  parseMoney,
  subtractMoney,
  totalMoney,
} from '#domain/units/money.ts';

const euros = (minor: bigint) => money(minor, 'EUR');

describe('money', () => {
  it('goes over the wire as digits of minor units and comes back the same', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: -(10n ** 18n) + 1n, max: 10n ** 18n - 1n }), (minor) => {
        expect(moneyFromMinorText(minorText(euros(minor)), 'EUR')).toEqual({ ok: true, money: euros(minor) });
      }),
    );
  });

  it.each(['1.5', '1e3', '', ' 1', '0x1', '1'.repeat(19)])('"%s" is no sum in minor units', (text) => {
    expect(moneyFromMinorText(text, 'EUR')).toEqual({ ok: false, reason: 'not-a-sum' });
  });

  it('is keyed and shown in the currency’s own decimals', () => {
    expect(parseMoney('12,5', 'EUR')).toEqual({ ok: true, money: euros(1250n) });
    expect(parseMoney('-0.05', 'EUR')).toEqual({ ok: true, money: euros(-5n) });
    expect(parseMoney('12.505', 'EUR')).toEqual({ ok: false, reason: 'too-many-decimals' });
    expect(parseMoney('1,000.00', 'EUR')).toEqual({ ok: false, reason: 'not-a-sum' });
    expect(parseMoney('5', 'euro')).toEqual({ ok: false, reason: 'unknown-currency' });
    expect(formatMoney(euros(-5n))).toBe('-0.05');
    expect(formatMoney(money(1250n, 'JPY'))).toBe('1250');
  });

  it('adds up, and never across currencies', () => {
    expect(totalMoney([euros(1n), euros(2n)], 'EUR')).toEqual(euros(3n));
    expect(subtractMoney(euros(1n), euros(3n))).toEqual(euros(-2n));
    expect(() => addMoney(euros(1n), money(1n, 'USD'))).toThrow(RangeError);
  });

  it('an hour and a quarter at 86.50 is 108.13, half a cent away from zero', () => {
    expect(multiplyMoney(euros(8650n), 75n, 60n)).toEqual(euros(10813n));
    expect(multiplyMoney(euros(-8650n), 75n, 60n)).toEqual(euros(-10813n));
  });

  it('parts add up to the whole, and none is a cent or more from its share', () => {
    fc.assert(
      fc.property(
        fc.bigInt({ min: -(10n ** 9n), max: 10n ** 9n }),
        fc.array(fc.bigInt({ min: 0n, max: 1000n }), { minLength: 1, maxLength: 8 }),
        (minor, weights) => {
          const whole = weights.reduce((sum, weight) => sum + weight, 0n);
          fc.pre(whole > 0n);
          const parts = allocateMoney(euros(minor), weights);
          expect(totalMoney(parts, 'EUR')).toEqual(euros(minor));
          for (const [index, part] of parts.entries()) {
            const off = part.minor * whole - minor * (weights[index] ?? 0n);
            expect(off < whole && off > -whole).toBe(true);
          }
        },
      ),
    );
  });

  it('an odd cent goes to the first of equals', () => {
    expect(allocateMoney(euros(100n), [1n, 1n, 1n]).map(({ minor }) => minor)).toEqual([34n, 33n, 33n]);
    expect(() => allocateMoney(euros(1n), [0n])).toThrow(RangeError);
  });
});

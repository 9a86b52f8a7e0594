import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { classesByUse, nextDue } from '#domain/stock/classes.ts';

const usages = fc.uniqueArray(fc.record({ id: fc.uuid(), amount: fc.integer({ min: 0, max: 1_000_000 }) }), {
  selector: ({ id }) => id,
  maxLength: 60,
});

describe('classes by use', () => {
  test('whatever is used: greatest first, no class before a stricter one, shares add up, unused is C', () => {
    fc.assert(
      fc.property(usages, (given) => {
        const classed = classesByUse(given);
        expect(classed.map((one) => one.class).join('')).toMatch(/^A*B*C*$/);
        expect(classed.every((one, at) => at === 0 || one.amount <= (classed[at - 1]?.amount ?? 0))).toBe(true);
        expect(classed.filter(({ amount }) => amount === 0).every((one) => one.class === 'C')).toBe(true);
        const total = given.reduce((sum, { amount }) => sum + amount, 0);
        expect(classed.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(total === 0 ? 0 : 1, 9);
        if (total > 0) expect(classed[0]?.class).toBe('A');
      }),
    );
  });

  test('one part that makes up everything is A, of equals the class does not depend on their order', () => {
    expect(classesByUse([{ id: 'x', amount: 5 }])).toMatchObject([{ class: 'A', share: 1, before: 0 }]);
    const equal = ['b', 'a', 'c', 'd'].map((id) => ({ id, amount: 1 }));
    expect(classesByUse(equal)).toEqual(classesByUse(equal.toReversed()));
  });
});

describe('when a bin is due', () => {
  test.each([
    [null, 30, 'never', null],
    ['2026-10-27', 30, 'due', '2026-11-26'],
    ['2026-10-26', 30, 'overdue', '2026-11-25'],
    ['2026-10-28', 30, 'later', '2026-11-27'],
    ['2024-02-28', 1002, 'due', '2026-11-26'],
  ] as const)('counted on %s, every %s days', (lastCounted, everyDays, state, dueOn) => {
    expect(nextDue(lastCounted, everyDays, '2026-11-26')).toEqual({ state, dueOn });
  });
});

import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';
import {
  type LotRule,
  meetsRule,
  oldestFirst,
  roomUnder,
  ruleWords,
  sameRule,
  wishesUnder,
} from '#domain/stock/lot-rule.ts';
import { chooseLots, type Lot } from '#domain/stock/lots.ts';
import { nanometres } from '#domain/units/quantity.ts';

const nm = (mm: number) => nanometres(Math.round(mm * 1e6));
const gradeB: LotRule = { rule: 'grade', grade: 'B' };
const exact = (...mm: number[]): LotRule => ({ rule: 'exact thickness', thicknesses: mm.map(nm), othersAny: false });
const forValves = (...mm: number[]): LotRule => ({ rule: 'exact thickness', thicknesses: mm.map(nm), othersAny: true });

describe('a rule in words', () => {
  it.each([
    [oldestFirst, ''],
    [gradeB, 'in grade B'],
    [exact(2.175), '2.175 mm exactly'],
    [forValves(2.3, 2.3, 2.3485), '2.300 mm and 2.3485 mm exactly'],
  ] as const)('%o reads "%s"', (rule, words) => {
    expect(ruleWords(rule)).toBe(words);
  });

  it('is the same rule whatever letters the grade is written in, and not where one more thickness is wanted', () => {
    expect(sameRule(gradeB, { rule: 'grade', grade: 'b ' })).toBe(true);
    expect(sameRule(gradeB, { rule: 'grade', grade: 'C' })).toBe(false);
    expect(sameRule(exact(2.175), forValves(2.175))).toBe(false);
    expect(sameRule(oldestFirst, gradeB)).toBe(false);
  });
});

describe('a lot', () => {
  it('of grade b is one of grade B; one without a mark is of none', () => {
    expect(meetsRule(gradeB, { thickness: null, grade: 'b' })).toBe(true);
    expect(meetsRule(gradeB, { thickness: null, grade: '' })).toBe(false);
    expect(meetsRule(gradeB, { thickness: null, grade: 'BB' })).toBe(false);
  });

  it('of another thickness by a thousandth is another lot', () => {
    expect(meetsRule(exact(2.175), { thickness: nm(2.175), grade: '' })).toBe(true);
    expect(meetsRule(exact(2.175), { thickness: nm(2.176), grade: '' })).toBe(false);
    expect(meetsRule(exact(2.175), { thickness: null, grade: '' })).toBe(false);
  });

  it('gives a line for valves a piece of each thickness, and any for the shim that is to be bought', () => {
    const rule = forValves(2.3, 2.35);
    const of = (mm: number, open: number, ...got: number[]) =>
      roomUnder(rule, { open, got: got.map(nm), lot: { thickness: nm(mm), grade: '' } });
    expect(of(2.3, 3)).toBe(2);
    expect(of(2.4, 3)).toBe(1);
    expect(of(2.4, 2)).toBe(0);
    expect(of(2.3, 1, 2.3, 2.4)).toBe(0);
    expect(of(2.35, 1, 2.3, 2.4)).toBe(1);
  });
});

describe('what is still to be found', () => {
  it('for two valves one of which has its shim, is the other', () => {
    expect(wishesUnder(forValves(2.3, 2.35), { open: 1, got: [nm(2.35)] })).toEqual([
      { count: 1, thickness: nm(2.3), grade: null },
    ]);
  });

  it('where fewer are open than are wanted, is what lies there', () => {
    const there = (thickness: number) => thickness === nm(2.35);
    expect(wishesUnder(forValves(2.3, 2.35), { open: 1, got: [], there })).toEqual([
      { count: 1, thickness: nm(2.35), grade: null },
    ]);
  });

  it('is nothing where nothing is open', () => {
    expect(wishesUnder(gradeB, { open: 0, got: [] })).toEqual([]);
  });
});

const rules = fc.oneof(
  fc.constant(oldestFirst),
  fc.constantFrom('A', 'b', 'C').map((grade): LotRule => ({ rule: 'grade', grade })),
  fc.constantFrom(2.3, 2.35).map((mm) => exact(mm)),
  fc.array(fc.constantFrom(2.3, 2.35, 2.4), { minLength: 1, maxLength: 4 }).map((mm) => forValves(...mm)),
);
const lots = fc.array(
  fc.record({
    grade: fc.constantFrom('', 'A', 'B'),
    thickness: fc.constantFrom(2.3, 2.35, 2.4, 2.45),
    onHand: fc.nat(4),
  }),
  { maxLength: 6 },
);

test('whatever lies there, no more pieces are taken than are open, and none of a lot beyond what the rule lets it give', () => {
  fc.assert(
    fc.property(rules, lots, fc.nat(6), (rule, drawn, open) => {
      const stock: Lot[] = drawn.map(({ grade, thickness, onHand }, at) => ({
        id: String(at),
        partId: 'p',
        receivedAt: '2026-01-01',
        onHand,
        reserved: 0,
        grade,
        thickness: nm(thickness),
      }));
      const wishes = wishesUnder(rule, { open, got: [] });
      expect(wishes.reduce((sum, { count }) => sum + count, 0)).toBe(open);
      const taken = new Map<string, number>();
      for (const wish of wishes) {
        const left = stock.map((lot) => ({ ...lot, reserved: taken.get(lot.id) ?? 0 }));
        for (const { lotId, count } of chooseLots(left, { partId: 'p', ...wish }).shares)
          taken.set(lotId, (taken.get(lotId) ?? 0) + count);
      }
      for (const lot of stock) {
        const grade = lot.grade ?? '';
        const got = taken.get(lot.id) ?? 0;
        if (got > 0) expect(meetsRule(rule, { thickness: lot.thickness, grade })).toBe(true);
        if (rule.rule === 'exact thickness' && rule.othersAny && !rule.thicknesses.some((one) => one === lot.thickness))
          expect(got).toBeLessThanOrEqual(Math.max(0, open - rule.thicknesses.length));
      }
    }),
    { seed: 90_417 },
  );
});

import { describe, expect, test } from 'vitest';
import { allowedDifference, judgeCount, lineStanding, mayBeTold } from '#domain/stock/counting.ts';

const none = { pieces: 0, permille: 0 };

describe('what a count may be off by', () => {
  test.each([
    [100, { pieces: 0, permille: 50 }, 5],
    [99, { pieces: 0, permille: 50 }, 4],
    [10, { pieces: 2, permille: 50 }, 2],
    [0, { pieces: 0, permille: 500 }, 0],
    [0, { pieces: 1, permille: 500 }, 1],
  ])('of %s with %o: %s', (books, tolerance, allowed) => {
    expect(allowedDifference(books, tolerance)).toBe(allowed);
  });
});

describe('what follows from a count', () => {
  const line = { round: 1, counted: 10, books: 10, moved: false };

  test('what agrees is right, also when something moved and after any round', () => {
    expect(judgeCount(line, none)).toBe('right');
    expect(judgeCount({ ...line, moved: true, round: 3 }, none)).toBe('right');
  });

  test('within tolerance it is let pass, more or less alike, in any round', () => {
    for (const counted of [9, 11])
      for (const round of [1, 2])
        expect(judgeCount({ ...line, counted, round }, { pieces: 1, permille: 0 })).toBe('within tolerance');
  });

  test('one piece beyond it is counted again, and after that decided', () => {
    for (const counted of [8, 12]) {
      expect(judgeCount({ ...line, counted }, { pieces: 1, permille: 0 })).toBe('count again');
      expect(judgeCount({ ...line, counted, round: 2 }, { pieces: 1, permille: 0 })).toBe('decide');
    }
  });

  test('a difference while pieces moved is never let pass', () => {
    const moved = { ...line, counted: 9, moved: true };
    expect(judgeCount(moved, { pieces: 5, permille: 500 })).toBe('count again');
    expect(judgeCount({ ...moved, round: 2 }, { pieces: 5, permille: 500 })).toBe('decide');
  });
});

describe('what a line stands for', () => {
  test.each([
    [{ settled: false, lastRound: null, wantedAgain: false }, 'to count'],
    [{ settled: false, lastRound: 1, wantedAgain: false }, 'to count again'],
    [{ settled: false, lastRound: 2, wantedAgain: false }, 'to decide'],
    [{ settled: false, lastRound: 2, wantedAgain: true }, 'to count again'],
    [{ settled: true, lastRound: 1, wantedAgain: false }, 'settled'],
  ] as const)('%o: %s', (history, standing) => {
    expect(lineStanding(history)).toBe(standing);
  });

  test('is told only when nobody counts it blind any more', () => {
    expect((['to count', 'to count again', 'to decide', 'settled'] as const).map(mayBeTold)).toEqual([
      false,
      false,
      true,
      true,
    ]);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { looseCount, missingCount, moveOnTally, tallyAfter, unaccountedCount } from '#domain/tally/balance.ts';
import type { PieceAct, PieceBalance, PieceMovement } from '#domain/tally/pieces.ts';
import { brokenSets, depthOfOpening, layersOff, shortCounts } from '#domain/tally/questions.ts';

const piece = (id: string, expected: number, changes: Partial<PieceBalance> = {}): PieceBalance => ({
  id,
  name: id,
  layer: null,
  oneTime: false,
  matchedSet: null,
  expected,
  counted: false,
  off: 0,
  fitted: 0,
  renewed: 0,
  accounted: 0,
  inside: 0,
  ...changes,
});

const tallyOf = (pieces: readonly PieceBalance[], ...acts: readonly (readonly [string, PieceAct, number])[]) =>
  tallyAfter(
    pieces,
    acts.map(([pieceId, act, count]): PieceMovement => ({ pieceId, act, count })),
  );

const balances = (pieces: readonly PieceBalance[], ...acts: readonly (readonly [string, PieceAct, number])[]) => {
  const tally = tallyOf(pieces, ...acts);
  if (!tally.ok) throw new Error(tally.reason.kind);
  return tally.balances;
};

describe('the tally', () => {
  it('has four dowels loose when four came off, and none when four are back on', () => {
    const [off] = balances([piece('dowels', 4)], ['dowels', 'off', 4]);
    expect(off && looseCount(off)).toBe(4);
    const [on] = balances([piece('dowels', 4)], ['dowels', 'off', 4], ['dowels', 'fitted', 4]);
    expect(on && unaccountedCount(on)).toBe(0);
  });

  it('stops the work when a count is short, be it that none was found', () => {
    expect(shortCounts(balances([piece('dowels', 4)], ['dowels', 'off', 3]))).toEqual([
      { pieceId: 'dowels', name: 'dowels', expected: 4, off: 3, missing: 1 },
    ]);
    expect(shortCounts(balances([piece('dowels', 4)], ['dowels', 'off', 0]))).toMatchObject([{ missing: 4 }]);
  });

  it('calls nothing short that nobody has counted yet', () => {
    expect(shortCounts([piece('dowels', 4)])).toEqual([]);
  });

  it('stays short while a piece is possibly inside, and no longer when it is found or was never there', () => {
    const short = [['dowels', 'off', 3] as const, ['dowels', 'possibly inside', 1] as const];
    expect(shortCounts(balances([piece('dowels', 4)], ...short))).toHaveLength(1);
    expect(shortCounts(balances([piece('dowels', 4)], ...short, ['dowels', 'found', 1]))).toEqual([]);
    const [explained] = balances([piece('dowels', 4)], ['dowels', 'off', 3], ['dowels', 'never there', 1]);
    expect(explained).toMatchObject({ expected: 3, off: 3 });
    const [decided] = balances([piece('dowels', 4)], ...short, ['dowels', 'not inside', 1]);
    expect(decided).toMatchObject({ expected: 3, off: 3, inside: 0 });
  });

  it('lets nobody talk away what was declared possibly inside, nor declare it twice', () => {
    const short = [['dowels', 'off', 3] as const, ['dowels', 'possibly inside', 1] as const];
    for (const act of ['never there', 'possibly inside'] as const) {
      expect(tallyOf([piece('dowels', 4)], ...short, ['dowels', act, 1])).toMatchObject({
        reason: { kind: 'more-than-undeclared', undeclared: 0 },
      });
    }
    expect(tallyOf([piece('dowels', 4)], ['dowels', 'off', 3], ['dowels', 'not inside', 1])).toMatchObject({
      reason: { kind: 'more-than-inside', inside: 0 },
    });
  });

  it('refuses more back on than came off, and changes nothing', () => {
    expect(tallyOf([piece('bolts', 6)], ['bolts', 'off', 6], ['bolts', 'fitted', 4], ['bolts', 'renewed', 3])).toEqual({
      ok: false,
      reason: { kind: 'more-than-loose', pieceId: 'bolts', loose: 2, count: 3 },
    });
  });

  it('refuses to find more than are missing', () => {
    expect(tallyOf([piece('bolts', 6)], ['bolts', 'off', 5], ['bolts', 'found', 2])).toMatchObject({
      reason: { kind: 'more-than-missing', missing: 1 },
    });
  });

  it('never takes a circlip back, only a new one', () => {
    const circlips = piece('circlips', 2, { oneTime: true });
    expect(tallyOf([circlips], ['circlips', 'off', 2], ['circlips', 'fitted', 2])).toMatchObject({
      reason: { kind: 'one-time' },
    });
    expect(tallyOf([circlips], ['circlips', 'off', 2], ['circlips', 'renewed', 2]).ok).toBe(true);
  });

  it('knows no half pieces, none below zero and none of another opening', () => {
    for (const count of [1.5, -1, Number.NaN]) {
      expect(tallyOf([piece('bolts', 6)], ['bolts', 'off', count])).toMatchObject({
        reason: { kind: 'count-not-whole' },
      });
    }
    expect(tallyOf([piece('bolts', 6)], ['bolts', 'off', 6], ['bolts', 'fitted', 0])).toMatchObject({ ok: false });
    expect(tallyOf([piece('bolts', 6)], ['nuts', 'off', 6])).toMatchObject({ reason: { kind: 'unknown-piece' } });
    expect(moveOnTally(piece('bolts', 6), { pieceId: 'nuts', act: 'off', count: 1 }).ok).toBe(false);
  });
});

describe('how far open an engine is', () => {
  const engine = [
    piece('cover', 1, { layer: 'cover' }),
    piece('head', 1, { layer: 'head' }),
    piece('cylinder', 1, { layer: 'cylinder' }),
    piece('bolts', 6),
  ];

  it('is told by the innermost layer that is off', () => {
    expect(depthOfOpening(engine)).toBeNull();
    expect(depthOfOpening(balances(engine, ['bolts', 'off', 6]))).toBeNull();
    const stripped = balances(engine, ['cover', 'off', 1], ['head', 'off', 1], ['cylinder', 'off', 1]);
    expect(depthOfOpening(stripped)).toBe('cylinder');
    expect(layersOff(stripped)).toEqual(['cover', 'head', 'cylinder']);
  });

  it('gets less as the layers go back, the same or new', () => {
    const tally = balances(engine, ['cover', 'off', 1], ['head', 'off', 1], ['head', 'renewed', 1]);
    expect(depthOfOpening(tally)).toBe('cover');
  });

  it('can’t be talked shut: a cover is not accounted for, it goes back or a new one does', () => {
    expect(tallyOf(engine, ['cover', 'off', 1], ['cover', 'accounted', 1])).toMatchObject({
      reason: { kind: 'layer-goes-back' },
    });
  });
});

describe('a matched set', () => {
  const caps = [piece('caps', 2, { matchedSet: 'caps and head' }), piece('head', 1, { matchedSet: 'caps and head' })];

  it('is broken when one of it is renewed and the other goes back', () => {
    const off = [['caps', 'off', 2] as const, ['head', 'off', 1] as const];
    expect(brokenSets(balances(caps, ...off, ['caps', 'fitted', 2], ['head', 'renewed', 1]))).toEqual([
      { matchedSet: 'caps and head', fitted: ['caps'], renewed: ['head'] },
    ]);
    expect(brokenSets(balances(caps, ...off, ['caps', 'fitted', 2], ['head', 'fitted', 1]))).toEqual([]);
  });
});

describe('any movements', () => {
  it('leave every count whole and ≥ 0, and never more back than came off', () => {
    const act = fc.constantFrom<PieceAct>(
      'off',
      'found',
      'never there',
      'possibly inside',
      'moved',
      'fitted',
      'renewed',
      'accounted',
    );
    const movement = fc.record({ pieceId: fc.constant('p'), act, count: fc.integer({ min: -1, max: 5 }) });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 8 }), fc.array(movement, { maxLength: 30 }), (expected, movements) => {
        let balance = piece('p', expected);
        for (const made of movements) {
          const step = moveOnTally(balance, made);
          if (step.ok) balance = step.balance;
          const { off, fitted, renewed, accounted } = balance;
          expect(Math.min(balance.expected, off, fitted, renewed, accounted)).toBeGreaterThanOrEqual(0);
          expect(looseCount(balance)).toBeGreaterThanOrEqual(0);
          expect(missingCount(balance)).toBeGreaterThanOrEqual(0);
          expect(looseCount(balance)).toBe(off - fitted - renewed - accounted);
        }
      }),
    );
  });
});

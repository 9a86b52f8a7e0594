import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { verdicts } from '#domain/metrology/finding.ts';
import {
  asksForWork,
  decisionFault,
  dispositionKinds,
  isWell,
  proves,
  rounds,
} from '#domain/obligations/disposition.ts';
import { mendingWords, valueWords } from '#domain/obligations/words.ts';

const anyKind = fc.constantFrom(...dispositionKinds);
const anyRound = fc.constantFrom(...rounds);
const bench = { reason: '', sizeClass: undefined, byLead: false };
const bare = { verdict: 'past the limit', plated: false } as const;

describe('what proves an obligation', () => {
  test('a round never proves what a later one found', () => {
    fc.assert(
      fc.property(anyRound, anyRound, anyKind, fc.boolean(), (good, round, decided, samePart) => {
        if (rounds.indexOf(good) < rounds.indexOf(round)) {
          expect(proves(good, { round, decided, samePart })).toBe(false);
        }
      }),
    );
  });

  test('a later round proves it only where work was decided on', () => {
    fc.assert(
      fc.property(anyKind, (decided) => {
        expect(proves('as built', { round: 'as received', decided, samePart: true })).toBe(asksForWork(decided));
      }),
    );
    expect(proves('as built', { round: 'as received', decided: undefined, samePart: true })).toBe(false);
  });

  test('measuring the same part again in the same round proves it, decided or not', () => {
    expect(proves('after work', { round: 'after work', decided: undefined, samePart: true })).toBe(true);
    expect(proves('after work', { round: 'after work', decided: undefined, samePart: false })).toBe(false);
    expect(proves('after work', { round: 'after work', decided: 'replace', samePart: false })).toBe(true);
  });
});

describe('who may decide what', () => {
  test('a plated surface is never bored or honed, by nobody', () => {
    fc.assert(
      fc.property(fc.constantFrom(...verdicts), fc.boolean(), (verdict, byLead) => {
        for (const kind of ['bore', 'hone'] as const) {
          const decision = { kind, reason: 'because', sizeClass: '+0.25', byLead };
          expect(decisionFault(decision, { verdict, plated: true })).toBe('plated');
        }
      }),
    );
  });

  test('using a part again needs a reason; past the limit a lead', () => {
    expect(decisionFault({ ...bench, kind: 'reuse' }, bare)).toBe('needs-reason');
    expect(decisionFault({ ...bench, kind: 'reuse', reason: 'one season' }, bare)).toBe('needs-lead');
    expect(decisionFault({ ...bench, kind: 'reuse', reason: 'one season', byLead: true }, bare)).toBeUndefined();
    const unsure = { ...bare, verdict: 'undecided' } as const;
    expect(decisionFault({ ...bench, kind: 'reuse', reason: 'one season' }, unsure)).toBeUndefined();
    const missing = { verdict: undefined, plated: false };
    expect(decisionFault({ ...bench, kind: 'other', reason: 'swept the floor' }, missing)).toBe('needs-lead');
  });

  test('boring names the size it is bored to', () => {
    expect(decisionFault({ ...bench, kind: 'bore' }, bare)).toBe('needs-size-class');
    expect(decisionFault({ ...bench, kind: 'bore', sizeClass: '+0.25' }, bare)).toBeUndefined();
  });
});

test('only two of the four verdicts are well', () => {
  expect(verdicts.filter(isWell)).toEqual(['within standard', 'within service limit']);
});

describe('in words', () => {
  const printed = (value: number) => `${value} nm`;

  test('an interval without an upper end says "or more"', () => {
    expect(valueWords({ type: 'interval', low: 650, high: null }, printed)).toBe('650 nm or more');
    expect(valueWords({ type: 'felt', present: true }, printed)).toBe('play felt');
  });

  test('a plated bore is not told to be bored', () => {
    const bore = { method: 'size', sizeClasses: ['+0.25', '+0.50'] } as const;
    expect(mendingWords({ ...bore, plated: false })).toContain('bore it to +0.25 or +0.50');
    expect(mendingWords({ ...bore, plated: true })).toMatch(/^Replate or renew it/);
  });
});

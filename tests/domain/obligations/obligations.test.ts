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
import { findingWords, mendingWords, valueWords } from '#domain/obligations/words.ts';
import { printedFigures } from '#domain/units/printed-figures.ts';
import { nanometres } from '#domain/units/quantity.ts';

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
  const printed = printedFigures({ unit: 'mm', decimals: 3, resolution: 1000 });

  test('an interval without an upper end says "or more"', () => {
    expect(valueWords({ type: 'interval', low: 650_000, high: null }, printed)).toBe('0.650 mm or more');
    expect(valueWords({ type: 'felt', present: true }, printed)).toBe('play felt');
  });

  const bore = {
    dimension: 'bore',
    kind: 'length',
    value: { type: 'point', value: 88_048_469 },
    uncertainty: { standard: 2288, effectiveDegreesOfFreedom: null, budget: [] },
    rule: 'iso-14253-1-2017',
    guardBand: 3776,
    verdict: 'undecided',
    margin: 1531,
    nearestLimit: { side: 'upper', value: nanometres(88_050_000) },
    probabilityPast: { low: 0.25, high: 0.25 },
    warnings: [],
    formulaVersion: 2,
  } as const;

  test('a finding is told as finely as its gauge reads and a digit more, what is kept off the limit rounded up', () => {
    expect(findingWords(bore, 'Bore', printed)).toBe(
      'Bore: 88.0485 mm, too near the upper limit 88.050 mm to tell (guard band 0.0038 mm).',
    );
    const caliper = printedFigures({ unit: 'mm', decimals: 3, resolution: 10_000 });
    expect(findingWords(bore, 'Bore', caliper)).toContain('Bore: 88.048 mm, too near the upper limit 88.050 mm');
  });

  test('a value past its limit by next to nothing is not told to be past it by nothing', () => {
    const past = { ...bore, verdict: 'past the limit', margin: -40, guardBand: 0 } as const;
    expect(findingWords(past, 'Bore', printed)).toContain(
      'less than 0.0001 mm past the upper limit 88.050 mm (no guard band)',
    );
  });

  test('a plated bore is not told to be bored', () => {
    const mendable = { method: 'size', sizeClasses: ['+0.25', '+0.50'] } as const;
    expect(mendingWords({ ...mendable, plated: false })).toContain('bore it to +0.25 or +0.50');
    expect(mendingWords({ ...mendable, plated: true })).toMatch(/^Replate or renew it/);
  });
});

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Method } from '#domain/metrology/dimension.ts';
import type { Finding, FindingValue } from '#domain/metrology/finding.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Observation } from '#domain/metrology/reading.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { nanometres } from '#domain/units/quantity.ts';
import {
  bore,
  boreGauge,
  boreLimits,
  borePositions,
  dimension,
  findingOf,
  mm,
  readingOf,
  repeated,
  shown,
} from './measuring-bench.ts';

const size = dimension('size', { type: 'single' }, { limits: boreLimits });
const near = fc.integer({ min: mm(95.97), max: mm(96.13) });
const rules = fc.constantFrom('iso-14253-1-2017' as const, 'iso-14253-1-1998' as const);

const keyedAgain = (value: number, unit: 'in' | 'mm', decimals: number) => {
  const parsed = parseQuantity(formatQuantity(value, unit, decimals), unit, 'length');
  if (!parsed.ok) throw new Error(parsed.reason);
  return parsed.value;
};

describe('laws of a finding', () => {
  it('the unit that limits and readings are keyed in never changes a verdict', () => {
    // Whole tenths of a thousandth of an inch: figures that both units write exactly.
    const tenths = fc.integer({ min: 37_780, max: 37_860 }).map((count) => count * 2540);
    fc.assert(
      fc.property(tenths, tenths, tenths, (low, above, value) => {
        const limits = (unit: 'in' | 'mm', decimals: number) => ({
          standard: { low: keyedAgain(low, unit, decimals) },
          service: { high: keyedAgain(low + Math.abs(above - low), unit, decimals) },
        });
        const judged = (unit: 'in' | 'mm', decimals: number) =>
          findingOf(
            'size',
            [{ ...size, limits: limits(unit, decimals) }],
            repeated('size', [keyedAgain(value, unit, decimals)]),
          );
        expect(judged('in', 4)).toEqual(judged('mm', 6));
      }),
    );
  });

  it('more uncertainty never turns undecided into a firm verdict', () => {
    // For sources taken as certain. With few repeats t falls as a certain source is added (GUM G.4 as it stands).
    const parts = fc.record({
      mpe: fc.nat(6000),
      resolution: fc.nat(5000),
      masterUncertainty: fc.nat(3000),
      repeatability: fc.record({ sd: fc.nat(4000) }),
    });
    fc.assert(
      fc.property(near, rules, parts, parts, (value, rule, less, extra) => {
        const of = (gauge: Partial<Instrument>) =>
          findingOf('size', [{ ...size, rule }], repeated('size', [value]), [{ ...boreGauge, ...gauge }]).verdict;
        const more = {
          mpe: less.mpe + extra.mpe,
          resolution: less.resolution + extra.resolution,
          masterUncertainty: less.masterUncertainty + extra.masterUncertainty,
          repeatability: { sd: less.repeatability.sd + extra.repeatability.sd },
        };
        const before = of(less);
        const after = of(more);
        if (before === 'undecided') expect(after).toBe('undecided');
        if (before === 'past the limit') expect(['past the limit', 'undecided']).toContain(after);
        if (before !== 'past the limit') expect(after).not.toBe('past the limit');
      }),
      { numRuns: 400 },
    );
  });

  it('past the limit is never better than as likely as not, and a pass never worse than 1 in 20', () => {
    fc.assert(
      fc.property(near, rules, (value, rule) => {
        const { verdict, probabilityPast } = findingOf('size', [{ ...size, rule }], repeated('size', [value]));
        if (verdict === 'past the limit') expect(probabilityPast.low).toBeGreaterThan(0.95);
        if (verdict.startsWith('within')) expect(probabilityPast.high).toBeLessThanOrEqual(0.05);
      }),
    );
  });

  it('further from a limit is never nearer to past it', () => {
    const order = ['within standard', 'within service limit', 'undecided', 'past the limit'];
    fc.assert(
      fc.property(fc.integer({ min: mm(96.01), max: mm(96.13) }), fc.nat(30_000), (value, step) => {
        const rank = (at: number) => order.indexOf(findingOf('size', [size], repeated('size', [at])).verdict);
        expect(rank(value + step)).toBeGreaterThanOrEqual(rank(value));
      }),
    );
  });
});

const methods: readonly Method[] = [
  { type: 'maximum' },
  { type: 'minimum' },
  { type: 'range' },
  { type: 'mean' },
  { type: 'size', rule: 'per-level' },
  { type: 'out-of-round', rule: 'per-level' },
  { type: 'out-of-round', rule: 'extremes' },
  { type: 'taper', rule: 'per-level' },
  { type: 'taper', rule: 'extremes' },
];

const endsOf = (value: FindingValue): readonly [number, number] => {
  switch (value.type) {
    case 'point':
      return [value.value, value.value];
    case 'interval':
    case 'span':
      return [value.low, value.high ?? Number.POSITIVE_INFINITY];
    case 'felt':
      throw new Error('No figure');
  }
};

describe('intervals through every method', () => {
  const gauge: Instrument = { ...boreGauge, mpe: 0 };
  const limits = { standard: {}, service: { high: mm(0.25) } };
  const cell = fc.record({
    low: fc.integer({ min: 0, max: 300_000 }),
    width: fc.integer({ min: 2, max: 100_000 }),
    share: fc.nat(999),
  });
  const cells = fc.array(cell, { minLength: 6, maxLength: 6 });

  const evaluated = (method: Method, observations: readonly Observation[]): Finding => {
    const own = dimension('d', method, { positions: borePositions, limits, rule: 'simple' });
    const readings = observations.map((observation, index) =>
      readingOf('d', borePositions[index]?.code ?? '', observation),
    );
    return findingOf('d', [own], readings, [gauge]);
  };

  it.each(methods.map((method) => [JSON.stringify(method), method] as const))(
    '%s of intervals holds the result of every set of points in them, and a firm verdict agrees with theirs',
    (_, method) => {
      fc.assert(
        fc.property(cells, (drawn) => {
          const held = evaluated(
            method,
            drawn.map(({ low, width }) => ({
              type: 'interval',
              low: nanometres(low),
              high: nanometres(low + width),
            })),
          );
          const point = evaluated(
            method,
            drawn.map(({ low, width, share }) => shown(low + Math.floor((width * share) / 1000))),
          );
          const [low, high] = endsOf(held.value);
          const [value] = endsOf(point.value);
          expect(value).toBeGreaterThanOrEqual(low - 1e-6);
          expect(value).toBeLessThanOrEqual(high + 1e-6);
          if (held.verdict !== 'undecided') expect(point.verdict).toBe(held.verdict);
        }),
      );
    },
  );

  it('a clearance from a gapped and a measured size holds every point of it', () => {
    const groove = dimension('groove', { type: 'interval' }, { limits });
    const ring = dimension('ring', { type: 'single' }, { limits });
    const side = dimension(
      'side clearance',
      { type: 'difference', minuend: 'groove', subtrahend: 'ring' },
      { positions: [], limits },
    );
    fc.assert(
      fc.property(cell, fc.nat(200_000), ({ low, width, share }, thickness) => {
        const value = (observation: Observation) =>
          endsOf(
            findingOf(
              'side clearance',
              [groove, { ...groove, code: 'plain' }, ring, side],
              [readingOf('groove', 'p1', observation), readingOf('ring', 'p1', shown(thickness))],
              [gauge],
            ).value,
          );
        const [least, most] = value({ type: 'interval', low: nanometres(low), high: nanometres(low + width) });
        const within = low + Math.floor((width * share) / 1000) - thickness;
        expect(least).toBeLessThanOrEqual(within);
        expect(most).toBeGreaterThanOrEqual(within);
      }),
    );
  });
});

describe('a bore by either rule', () => {
  it('out-of-round by extremes is never less than by level, and size is the same', () => {
    const bores = fc.array(near, { minLength: 6, maxLength: 6 });
    fc.assert(
      fc.property(bores, (values) => {
        const readings = values.map((value, index) =>
          readingOf('bore', borePositions[index]?.code ?? '', shown(value)),
        );
        const by = (type: 'size' | 'out-of-round', rule: 'per-level' | 'extremes') => {
          const own = dimension('own', { type, rule }, { positions: [], readingsOf: 'bore', limits: boreLimits });
          return endsOf(findingOf('own', [bore, own], readings).value)[0];
        };
        expect(by('out-of-round', 'extremes')).toBeGreaterThanOrEqual(by('out-of-round', 'per-level'));
        expect(by('size', 'extremes')).toBe(by('size', 'per-level'));
      }),
    );
  });
});

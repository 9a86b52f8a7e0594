import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DecisionRule, DimensionDefinition, Limits, Method } from '#domain/metrology/dimension.ts';
import type { Finding, FindingValue } from '#domain/metrology/finding.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Observation, Reading } from '#domain/metrology/reading.ts';
import { formatQuantity } from '#domain/units/format-quantity.ts';
import { parseQuantity } from '#domain/units/parse-quantity.ts';
import { baseQuantity, nanometres } from '#domain/units/quantity.ts';
import { boreGauge, borePositions, dimension, feelers, findingOf, mm, readingOf } from './measuring-bench.ts';

/** One method with what it works on: the dimension 'd' on readings of its own or of 'a' and 'b'. */
type Bench = {
  readonly name: string;
  readonly method: Method;
  readonly from: 'own readings' | 'two dimensions' | 'blades';
};

const own = (method: Method): Bench => ({ name: JSON.stringify(method), method, from: 'own readings' });
const benches: readonly Bench[] = [
  own({ type: 'maximum' }),
  own({ type: 'minimum' }),
  own({ type: 'range' }),
  own({ type: 'mean' }),
  own({ type: 'size', rule: 'per-level' }),
  own({ type: 'out-of-round', rule: 'per-level' }),
  own({ type: 'out-of-round', rule: 'extremes' }),
  own({ type: 'taper', rule: 'per-level' }),
  own({ type: 'taper', rule: 'extremes' }),
  { name: 'difference', method: { type: 'difference', minuend: 'a', subtrahend: 'b' }, from: 'two dimensions' },
  { name: 'ratio', method: { type: 'ratio', numerator: 'a', denominator: 'b' }, from: 'two dimensions' },
  { name: 'interval', method: { type: 'interval' }, from: 'blades' },
];

/** Six numbers each of what is read: nanometres beyond a foot that a bench sets. */
type Drawn = { readonly a: readonly number[]; readonly b: readonly number[]; readonly blade: number };
type Gauges = { readonly gauge: Instrument; readonly blades: Instrument };
/** What is read where so many nanometres are; the twelve places of 'a' and 'b' are counted through. */
type Read = (nanometresThere: number, place: number) => Observation;

const point: Read = (value) => ({ type: 'value', value: nanometres(value) });
const kindOf = ({ method }: Bench) => (method.type === 'ratio' ? 'ratio' : 'length');
const open: Limits = { standard: {}, service: { high: nanometres(9e12) } };

const sheetOf = (bench: Bench, limits: Limits, rule: DecisionRule): readonly DimensionDefinition[] => {
  const operand = (code: string) => dimension(code, { type: 'maximum' }, { positions: borePositions, limits: open });
  const positions = { 'own readings': borePositions, 'two dimensions': [], blades: [{ code: 'p1' }] }[bench.from];
  return [operand('a'), operand('b'), dimension('d', bench.method, { kind: kindOf(bench), positions, limits, rule })];
};

/** `a` is read at 40 mm and more, `b` at 20, times what everything is scaled by. */
const readingsOf = (
  { from }: Bench,
  { a, b, blade }: Drawn,
  { times = 1, read = point, write = (of: number) => of },
) => {
  const at = (code: string, foot: number, values: readonly number[]): readonly Reading[] =>
    values.map((value, index) =>
      readingOf(
        code,
        borePositions[index]?.code ?? '',
        read(write((mm(foot) + value) * times), index + (code === 'b' ? 6 : 0)),
      ),
    );
  switch (from) {
    case 'own readings':
      return at('d', 40, a);
    case 'two dimensions':
      return [...at('a', 40, a), ...at('b', 20, b)];
    case 'blades': {
      const thickness = (index: number) => nanometres((feelers.blades?.[index]?.thickness ?? 0) * times);
      const gone: Observation = { type: 'interval', low: thickness(blade), high: thickness(blade + 1) };
      return [readingOf('d', 'p1', gone, { instrument: feelers.code })];
    }
  }
};

const gaugesOf = (figures: Partial<Instrument>, times = 1, looser = 0): Gauges => ({
  gauge: {
    ...boreGauge,
    mpe: (figures.mpe ?? boreGauge.mpe) * times,
    resolution: (figures.resolution ?? boreGauge.resolution) * times,
    masterUncertainty: (figures.masterUncertainty ?? 0) * times,
    repeatability: { sd: (figures.repeatability?.sd ?? 1200) * times },
  },
  blades: {
    ...feelers,
    blades: (feelers.blades ?? []).map(({ thickness, tolerance }) => ({
      thickness: nanometres(thickness * times),
      tolerance: nanometres((tolerance + looser) * times),
    })),
  },
});

const endsOf = (value: FindingValue): readonly [number, number] => {
  if (value.type === 'felt') throw new Error('No figure');
  return value.type === 'point' ? [value.value, value.value] : [value.low, value.high ?? Number.POSITIVE_INFINITY];
};

const found = (
  bench: Bench,
  readings: readonly Reading[],
  { limits = open, rule = 'simple' as DecisionRule, by = gaugesOf({}) },
): Finding => findingOf('d', sheetOf(bench, limits, rule), readings, [by.gauge, by.blades]);

const cells = fc.array(fc.nat(300_000), { minLength: 6, maxLength: 6 });
const drawn: fc.Arbitrary<Drawn> = fc.record({ a: cells, b: cells, blade: fc.nat(9) });
const rules = fc.constantFrom<DecisionRule>('iso-14253-1-2017', 'iso-14253-1-1998', 'guard-factor-1.3', 'simple');
/** Where the limits lie: so many hundredths of 12 µm (of 600 millionths in a ratio) beside the result. */
const beside = fc.record({ low: fc.integer({ min: -300, max: 0 }), high: fc.integer({ min: -100, max: 100 }) });

/** Limits so near to the result that the uncertainty counts; the lower one is left out every other time. */
const limitsNear = (bench: Bench, value: FindingValue, { low, high }: { low: number; high: number }): Limits => {
  const [least, most] = endsOf(value);
  const step = bench.method.type === 'ratio' ? 6 : 120;
  const bound = (of: number) => baseQuantity(kindOf(bench), Math.round(of));
  const upper = bound(most + high * step);
  const lower = bound(Math.min(least + low * step, upper - 1));
  return { standard: {}, service: low % 2 === 0 ? { high: upper } : { low: lower, high: upper } };
};

const scaled = ({ service: { low, high } }: Limits, times: number): Limits => ({
  standard: {},
  service: {
    ...(low === undefined ? {} : { low: nanometres(low * times) }),
    ...(high === undefined ? {} : { high: nanometres(high * times) }),
  },
});

const edges = ({ service: { low, high } }: Limits): readonly number[] =>
  [low, high].flatMap((edge) => (edge === undefined ? [] : [Number(edge)]));

describe.each(benches)('laws of $name', (bench) => {
  it('everything scaled by a whole number keeps its verdict, but for the unit that a guard band is rounded by', () => {
    fc.assert(
      fc.property(drawn, beside, rules, fc.integer({ min: 2, max: 25 }), (of, places, rule, times) => {
        const readings = readingsOf(bench, of, {});
        const limits = limitsNear(bench, found(bench, readings, {}).value, places);
        const one = found(bench, readings, { limits, rule });
        const near = endsOf(one.value).some((end) =>
          edges(limits).some((edge) => Math.abs(Math.abs(end - edge) - one.guardBand) <= 1),
        );
        fc.pre(!near);
        const other = found(bench, readingsOf(bench, of, { times }), {
          limits: bench.method.type === 'ratio' ? limits : scaled(limits, times),
          rule,
          by: gaugesOf({}, times),
        });
        expect(other.verdict).toBe(one.verdict);
      }),
    );
  });

  it('figures and limits keyed in inches are judged as the same ones in millimetres', () => {
    const through = (unit: 'in' | 'mm', decimals: number) => (value: number) => {
      const tenths = Math.round(value / 2540) * 2540;
      const parsed = parseQuantity(formatQuantity(tenths, unit, decimals), unit, 'length');
      if (!parsed.ok) throw new Error(parsed.reason);
      return parsed.value;
    };
    fc.assert(
      fc.property(drawn, beside, rules, (of, places, rule) => {
        const value = found(bench, readingsOf(bench, of, { write: through('mm', 6) }), {}).value;
        const limits = limitsNear(bench, value, places);
        const keyed = (unit: 'in' | 'mm', decimals: number) => {
          const write = through(unit, decimals);
          const bounds = Object.entries(limits.service).map(([side, edge]) => [side, write(edge)]);
          const service = bench.method.type === 'ratio' ? limits.service : Object.fromEntries(bounds);
          return found(bench, readingsOf(bench, of, { write }), { limits: { standard: {}, service }, rule });
        };
        expect(keyed('in', 4)).toEqual(keyed('mm', 6));
      }),
    );
  });

  it('more uncertainty that is certain never makes a verdict firmer', () => {
    const parts = fc.record({
      mpe: fc.nat(6000),
      resolution: fc.nat(5000),
      masterUncertainty: fc.nat(3000),
      repeatability: fc.record({ sd: fc.nat(4000) }),
    });
    fc.assert(
      fc.property(drawn, beside, rules, parts, parts, (of, places, rule, less, extra) => {
        const readings = readingsOf(bench, of, {});
        const limits = limitsNear(bench, found(bench, readings, {}).value, places);
        const more = {
          mpe: less.mpe + extra.mpe,
          resolution: less.resolution + extra.resolution,
          masterUncertainty: less.masterUncertainty + extra.masterUncertainty,
          repeatability: { sd: less.repeatability.sd + extra.repeatability.sd },
        };
        const before = found(bench, readings, { limits, rule, by: gaugesOf(less) }).verdict;
        const after = found(bench, readings, { limits, rule, by: gaugesOf(more, 1, extra.mpe) }).verdict;
        expect([before, 'undecided']).toContain(after);
      }),
      { numRuns: 200 },
    );
  });

  it('of intervals it holds what any points in them give, and a firm verdict is theirs too', () => {
    // At the ends as often as between them, and each place by itself: there the extremes of a result come from.
    const shares = fc.array(fc.constantFrom(0, 0.5, 0.999), { minLength: 12, maxLength: 12 });
    const inside = fc.record({ width: fc.integer({ min: 2, max: 60_000 }), shares });
    fc.assert(
      fc.property(drawn, beside, inside, (of, places, { width, shares: taken }) => {
        const by = gaugesOf({ mpe: 0 });
        const gap: Read = (low) => ({ type: 'interval', low: nanometres(low), high: nanometres(low + width) });
        const within: Read = (low, place) => point(low + Math.floor(width * (taken[place] ?? 0)), place);
        const held = found(bench, readingsOf(bench, of, { read: gap }), { by });
        const limits = limitsNear(bench, held.value, places);
        const { value, verdict } = found(bench, readingsOf(bench, of, { read: gap }), { limits, by });
        const [low, high] = endsOf(value);
        if (bench.from === 'blades') {
          const [goes, doesNot] = [of.blade, of.blade + 1].map((at) => Number(feelers.blades?.[at]?.thickness ?? 0));
          expect(low).toBeLessThanOrEqual(goes ?? Number.NaN);
          expect(high).toBeGreaterThanOrEqual(doesNot ?? Number.NaN);
          return;
        }
        const single = found(bench, readingsOf(bench, of, { read: within }), { limits, by });
        const [least, most] = endsOf(single.value);
        expect(least).toBeGreaterThanOrEqual(low - 1e-6);
        expect(most).toBeLessThanOrEqual(high + 1e-6);
        if (verdict !== 'undecided') expect(single.verdict).toBe(verdict);
      }),
    );
  });
});

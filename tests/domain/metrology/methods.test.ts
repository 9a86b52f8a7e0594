import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DimensionDefinition, Limits, Method, Position } from '#domain/metrology/dimension.ts';
import type { Finding } from '#domain/metrology/finding.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import type { Observation, Reading } from '#domain/metrology/reading.ts';
import { readDimensionsOf } from '#domain/metrology/resolving.ts';
import { refusalText } from '#domain/metrology/wording.ts';
import { baseQuantity, type QuantityKind } from '#domain/units/quantity.ts';
import {
  boreGauge,
  dimension,
  feelers,
  findingOf,
  gap,
  micrometer,
  mm,
  readingOf,
  refusalOf,
  shown,
  upTo,
} from './measuring-bench.ts';

const none: Limits = { standard: {}, service: {} };
const at = (...codes: readonly string[]): readonly Position[] => codes.map((code) => ({ code }));
const levelled = (levels: number, axes: readonly string[]): readonly Position[] =>
  Array.from({ length: levels }, (_, level) =>
    axes.map((axis) => ({ code: `${level + 1}${axis}`, level: level + 1, axis })),
  ).flat();

const derived = (code: string, method: Method, limits: Limits, kind: QuantityKind = 'length'): DimensionDefinition =>
  dimension(code, method, { positions: [], limits, kind });
const difference = (code: string, minuend: string, subtrahend: string, limits: Limits) =>
  derived(code, { type: 'difference', minuend, subtrahend }, limits);

/** Millimetres at a dimension's positions, in order. */
const taken = (
  of: DimensionDefinition,
  millimetres: readonly number[],
  instrument = boreGauge.code,
): readonly Reading[] =>
  millimetres.map((value, index) =>
    readingOf(of.code, of.positions[index]?.code ?? '', shown(mm(value)), { instrument }),
  );
const gapped = (of: DimensionDefinition, gaps: readonly (readonly [number, number | null])[]): readonly Reading[] =>
  gaps.map(([low, high], index) =>
    readingOf(of.code, of.positions[index]?.code ?? '', gap(low, high), { instrument: feelers.code }),
  );

const gaugeOf = (
  kind: QuantityKind,
  figures: { readonly resolution: number; readonly mpe: number; readonly sd: number },
): Instrument => ({
  code: `${kind} gauge`,
  kind: `${kind} gauge`,
  kindOfQuantity: kind,
  resolution: figures.resolution,
  mpe: figures.mpe,
  repeatability: { sd: figures.sd },
  zeroError: 0,
  masterUncertainty: 0,
});
const pressureGauge = gaugeOf('pressure', { resolution: 1000, mpe: 5000, sd: 2000 });
const forceGauge = gaugeOf('force', { resolution: 100, mpe: 500, sd: 200 });
const shownOf = (kind: QuantityKind, value: number): Observation => ({
  type: 'value',
  value: baseQuantity(kind, value),
});
const measured = (code: string, kind: QuantityKind, limits: Limits = none) =>
  dimension(code, { type: 'single' }, { kind, limits });
const taking = (code: string, kind: QuantityKind, value: number): Reading =>
  readingOf(code, 'p1', shownOf(kind, value), { instrument: `${kind} gauge` });

const span = ({ value }: Finding): readonly [number, number] => {
  if (value.type === 'point') return [value.value, value.value];
  if (value.type === 'felt' || value.high === null) throw new Error(value.type);
  return [value.low, value.high];
};

describe('the top end', () => {
  it('a bore at four heights and three axes, by both rules', () => {
    const bore = dimension(
      'bore',
      { type: 'size', rule: 'per-level' },
      { positions: levelled(4, ['a', 'b', 'c']), limits: upTo(88.02, 88.1) },
    );
    const readings = taken(
      bore,
      [88.03, 88.02, 88.01, 88.025, 88.015, 88.012, 88.02, 88.01, 88.01, 88.011, 88.008, 88.006],
    );
    const by = (type: 'out-of-round' | 'taper', rule: 'per-level' | 'extremes') => {
      const own = dimension(type, { type, rule }, { positions: [], readingsOf: 'bore', limits: upTo(0.02, 0.05) });
      return span(findingOf(type, [bore, own], readings))[0];
    };
    expect(by('out-of-round', 'per-level')).toBe(mm(0.02));
    expect(by('out-of-round', 'extremes')).toBe(mm(0.03 - 0.006));
    expect(by('taper', 'per-level')).toBe(mm(0.03 - 0.011));
    expect(by('taper', 'extremes')).toBe(mm(0.03 - 0.011));
  });

  it('piston and clearance by grade: the limits are those of the letter that is fitted', () => {
    const grades: Readonly<Record<string, Limits>> = {
      A: { standard: { low: mm(87.955), high: mm(87.962) }, service: {} },
      B: { standard: { low: mm(87.962), high: mm(87.97) }, service: {} },
    };
    const verdict = (letter: string) => {
      const piston = dimension('piston', { type: 'single' }, { limits: grades[letter] ?? none, rule: 'simple' });
      return findingOf('piston', [piston], taken(piston, [87.96])).verdict;
    };
    expect(verdict('A')).toBe('within standard');
    expect(verdict('B')).toBe('past the limit');
  });

  it('side clearance by feeler, or as the groove less the ring', () => {
    const byFeeler = dimension(
      'side',
      { type: 'interval' },
      { positions: at('1', '2', '3', '4'), limits: upTo(0.08, 0.1) },
    );
    const found = findingOf(
      'side',
      [byFeeler],
      gapped(byFeeler, [
        [0.05, 0.08],
        [0.05, 0.08],
        [0.05, 0.08],
        [0, 0.05],
      ]),
    );
    expect(found.value).toEqual({ type: 'span', low: 0, high: mm(0.082) });
    const groove = dimension('groove', { type: 'maximum' }, { positions: at('1', '2', '3', '4'), limits: none });
    const ring = dimension('ring', { type: 'minimum' }, { positions: at('1', '2', '3', '4'), limits: none });
    const side = difference('side', 'groove', 'ring', upTo(0.08, 0.1));
    const readings = [
      ...taken(groove, [1.23, 1.232, 1.229, 1.231]),
      ...taken(ring, [1.19, 1.188, 1.187, 1.19], micrometer.code),
    ];
    expect(span(findingOf('side', [groove, ring, side], readings))).toEqual([mm(0.039), mm(0.045)]);
  });

  it('a pin has two clearances and a wear step; a rod may be felt', () => {
    const pin = dimension('pin', { type: 'minimum' }, { positions: at('left', 'middle', 'right'), limits: none });
    const boss = dimension('boss', { type: 'maximum' }, { positions: at('left', 'right'), limits: none });
    const smallEnd = dimension('small end', { type: 'maximum' }, { positions: at('along', 'across'), limits: none });
    const sheet = [
      pin,
      boss,
      smallEnd,
      difference('pin in piston', 'boss', 'pin', upTo(0.02, 0.07)),
      difference('pin in rod', 'small end', 'pin', upTo(0.03, 0.07)),
      dimension('pin step', { type: 'range' }, { positions: [], readingsOf: 'pin', limits: upTo(undefined, 0.01) }),
    ];
    const readings = [
      ...taken(pin, [19.995, 19.987, 19.996], micrometer.code),
      ...taken(boss, [20.006, 20.008]),
      ...taken(smallEnd, [20.018, 20.02]),
    ];
    expect(span(findingOf('pin in piston', sheet, readings))).toEqual([mm(0.01), mm(0.021)]);
    expect(span(findingOf('pin in rod', sheet, readings))).toEqual([mm(0.022), mm(0.033)]);
    expect(span(findingOf('pin step', sheet, readings))[0]).toBe(mm(0.009));
  });

  it('six lines on each of two faces, the worst counts; runout as the dial went from least to most', () => {
    const six = at('long 1', 'long 2', 'end 1', 'end 2', 'diagonal 1', 'diagonal 2');
    const head = dimension('head face', { type: 'maximum' }, { positions: six, limits: upTo(undefined, 0.05) });
    const cylinder = { ...head, code: 'cylinder face' };
    const flat: readonly (readonly [number, number])[] = [
      [0, 0.05],
      [0, 0.05],
      [0, 0.05],
      [0, 0.05],
      [0, 0.05],
      [0, 0.05],
    ];
    const warped = flat.map((line, index) => (index === 4 ? ([0.08, 0.1] as const) : line));
    const readings = [...gapped(head, flat), ...gapped(cylinder, warped)];
    expect(findingOf('head face', [head, cylinder], readings).verdict).toBe('undecided');
    expect(findingOf('cylinder face', [head, cylinder], readings).verdict).toBe('past the limit');
    const runout = dimension(
      'crank runout',
      { type: 'range' },
      { positions: at('0°', '90°', '180°', '270°'), limits: upTo(undefined, 0.05) },
    );
    const dial = taken(runout, [0, 0.012, -0.004, -0.009]);
    expect(span(findingOf('crank runout', [runout], dial))[0]).toBe(mm(0.021));
  });

  it('guide over three heights, stem over three heights and two axes', () => {
    const guide = dimension('guide', { type: 'maximum' }, { positions: at('top', 'middle', 'bottom'), limits: none });
    const stem = dimension('stem', { type: 'minimum' }, { positions: levelled(3, ['x', 'y']), limits: none });
    const clearance = difference('stem clearance', 'guide', 'stem', upTo(undefined, 0.08));
    const readings = [...taken(guide, [5.03, 5.01, 5.02]), ...taken(stem, [4.98, 4.981, 4.972, 4.97, 4.99, 4.985])];
    expect(span(findingOf('stem clearance', [guide, stem, clearance], readings))).toEqual([mm(0.02), mm(0.06)]);
  });

  it('cam lift is height less base at each of two widths, the least counts against its limit', () => {
    const height = dimension('height', { type: 'minimum' }, { positions: at('front', 'rear'), limits: none });
    const base = dimension('base', { type: 'maximum' }, { positions: at('front', 'rear'), limits: none });
    const lift = difference('lift', 'height', 'base', { standard: {}, service: { low: mm(8.4) } });
    const readings = [...taken(height, [36.92, 36.9]), ...taken(base, [28.44, 28.45])];
    expect(findingOf('lift', [height, base, lift], readings)).toMatchObject({
      value: { type: 'span', low: mm(8.45), high: mm(8.48) },
      verdict: 'within service limit',
    });
  });
});

describe('springs, chain and pressures', () => {
  it('spring rate: load gained over travel, told in newtons at one millimetre', () => {
    const loads = [measured('load at 40', 'force'), measured('load at 32', 'force')];
    const lengths = [measured('length 1', 'length'), measured('length 2', 'length')];
    const sheet = [
      ...loads,
      ...lengths,
      derived('load gained', { type: 'difference', minuend: 'load at 32', subtrahend: 'load at 40' }, none, 'force'),
      difference('travel', 'length 1', 'length 2', none),
      derived(
        'rate',
        { type: 'ratio', numerator: 'load gained', denominator: 'travel', scale: mm(1) },
        { standard: {}, service: { low: baseQuantity('force', 25_000) } },
        'force',
      ),
    ];
    const readings = [
      taking('load at 40', 'force', 180_000),
      taking('load at 32', 'force', 404_000),
      readingOf('length 1', 'p1', shown(mm(40))),
      readingOf('length 2', 'p1', shown(mm(32))),
    ];
    const finding = findingOf('rate', sheet, readings, [forceGauge]);
    expect(finding.value).toEqual({ type: 'point', value: 28_000 });
    // By hand: rate · √((u(ΔF)/ΔF)² + (u(ΔL)/ΔL)²), each difference by one gauge at one setting.
    const ofForce = Math.SQRT2 * Math.hypot(100 / Math.sqrt(12), 500 / Math.sqrt(3), 200);
    const ofLength = Math.SQRT2 * Math.hypot(1000 / Math.sqrt(12), 3000 / Math.sqrt(3), 1200);
    expect(finding.uncertainty.standard).toBeCloseTo(28_000 * Math.hypot(ofForce / 224_000, ofLength / 8e6), 6);
    expect(finding.kind).toBe('force');
  });

  it('chain stretch: how much longer over its links than stated for a new one, in per cent', () => {
    const length = measured('chain length', 'length');
    const sheet = [
      length,
      derived('chain new', { type: 'stated', value: mm(127) }, none),
      difference('chain longer', 'chain length', 'chain new', none),
      derived(
        'stretch',
        { type: 'ratio', numerator: 'chain longer', denominator: 'chain new' },
        { standard: {}, service: { high: baseQuantity('ratio', 10_000) } },
        'ratio',
      ),
    ];
    const finding = findingOf('stretch', sheet, [readingOf('chain length', 'p1', shown(mm(127.889)))]);
    expect(finding.value).toEqual({ type: 'point', value: 7000 });
    expect(finding.verdict).toBe('within service limit');
    expect(readDimensionsOf('stretch', sheet)).toEqual(['chain length']);
    expect(finding.uncertainty.standard).toBeCloseTo(
      (1e6 / 127e6) * Math.hypot(1000 / Math.sqrt(12), 3000 / Math.sqrt(3), 1200),
      9,
    );
  });

  it('leak-down: what is lost of what goes in; one gauge at one setting shares its scale with itself', () => {
    const sheet = [
      measured('pressure in', 'pressure'),
      measured('pressure held', 'pressure'),
      derived('lost', { type: 'difference', minuend: 'pressure in', subtrahend: 'pressure held' }, none, 'pressure'),
      derived(
        'leak',
        { type: 'ratio', numerator: 'lost', denominator: 'pressure in' },
        { standard: { high: baseQuantity('ratio', 100_000) }, service: { high: baseQuantity('ratio', 200_000) } },
        'ratio',
      ),
    ];
    const finding = findingOf(
      'leak',
      sheet,
      [taking('pressure in', 'pressure', 690_000), taking('pressure held', 'pressure', 586_500)],
      [pressureGauge],
    );
    expect(finding.value).toEqual({ type: 'point', value: 150_000 });
    expect(finding.verdict).toBe('within service limit');
    // 1 − out/in: sensitivities out/in² and −1/in, a reading above and below the line counted once.
    const [toIn, toOut] = [586.5 / 690 / 690e3, -1 / 690e3].map((each) => each * 1e6);
    const both = Math.hypot(toIn ?? 0, toOut ?? 0);
    expect(finding.uncertainty.budget.find(({ name }) => name.startsWith('repeatability'))?.contribution).toBeCloseTo(
      both * 2000,
      6,
    );
  });

  it('compression is told at the air pressure of the sea’s level: × 101.325 / what the barometer shows', () => {
    const sheet = [
      measured('compression', 'pressure'),
      measured('air', 'pressure'),
      derived(
        'compression at sea level',
        { type: 'ratio', numerator: 'compression', denominator: 'air', scale: baseQuantity('pressure', 101_325) },
        { standard: { low: baseQuantity('pressure', 1_000_000) }, service: {} },
        'pressure',
      ),
    ];
    const finding = findingOf(
      'compression at sea level',
      sheet,
      [taking('compression', 'pressure', 900_000), taking('air', 'pressure', 81_060)],
      [pressureGauge],
    );
    expect(finding.value).toEqual({ type: 'point', value: 1_125_000 });
  });

  it('a ratio of gaps by feeler holds every ratio of what may lie in them', () => {
    const top = dimension('top gap', { type: 'interval' }, { limits: none });
    const second = dimension('second gap', { type: 'interval' }, { limits: none });
    const ratio = derived(
      'second over top',
      { type: 'ratio', numerator: 'second gap', denominator: 'top gap' },
      { standard: {}, service: { high: baseQuantity('ratio', 3_000_000) } },
      'ratio',
    );
    const exact: Instrument = {
      ...feelers,
      blades: (feelers.blades ?? []).map((blade) => ({ ...blade, tolerance: 0 })),
    };
    const found = findingOf(
      'second over top',
      [top, second, ratio],
      [...gapped(top, [[0.2, 0.25]]), ...gapped(second, [[0.4, 0.45]])],
      [exact],
    );
    const [low, high] = span(found);
    fc.assert(
      fc.property(fc.integer({ min: 200, max: 249 }), fc.integer({ min: 400, max: 449 }), (below, above) => {
        expect((above / below) * 1e6).toBeGreaterThanOrEqual(low - 1);
        expect((above / below) * 1e6).toBeLessThanOrEqual(high + 1);
      }),
    );
  });
});

describe('what works on others', () => {
  const one = measured('one', 'length');
  const two = measured('two', 'length');
  const limits = upTo(undefined, 100);

  it('scales and differences of differences agree with the sum done by hand', () => {
    const sheet = [one, two, difference('a', 'one', 'two', none), difference('b', 'a', 'two', limits)];
    const readings = [readingOf('one', 'p1', shown(mm(50))), readingOf('two', 'p1', shown(mm(12)))];
    expect(findingOf('b', sheet, readings).value).toEqual({ type: 'point', value: mm(26) });
  });

  it('one that is worked out from itself is refused, and so is one too deep', () => {
    const circle = [difference('a', 'b', 'one', limits), difference('b', 'a', 'one', limits), one];
    expect(refusalOf('a', circle, [])).toMatchObject({ reason: 'goes-in-circles', dimension: 'a' });
    const deep = Array.from({ length: 40 }, (_, index) =>
      difference(`d${index}`, `d${index + 1}`, `d${index + 1}`, limits),
    );
    const refusal = refusalOf('d0', [...deep, { ...one, code: 'd40' }], [readingOf('d40', 'p1', shown(mm(1)))]);
    expect(refusal.reason).toBe('nested-too-deep');
    expect(refusalText(refusal)).toMatch(/more than 4/);
  });

  it('nothing is divided by what may be nothing', () => {
    const ratio = derived('r', { type: 'ratio', numerator: 'one', denominator: 'zero' }, limits, 'ratio');
    const zero = derived('zero', { type: 'stated', value: mm(0) }, none);
    expect(refusalOf('r', [one, zero, ratio], [readingOf('one', 'p1', shown(1))])).toEqual({
      reason: 'denominator-not-positive',
      dimension: 'zero',
    });
  });

  it('a length below nothing is refused unless the sheet says it may be; what is no number always', () => {
    const own = measured('own', 'length', upTo(undefined, 1));
    expect(refusalOf('own', [own], [readingOf('own', 'p1', shown(mm(-0.1)))])).toEqual({
      reason: 'negative-length',
      position: 'p1',
    });
    const deck = measured('deck', 'length', { standard: { low: mm(-0.2), high: mm(0.2) }, service: {} });
    expect(findingOf('deck', [deck], [readingOf('deck', 'p1', shown(mm(-0.1)))]).value).toEqual({
      type: 'point',
      value: mm(-0.1),
    });
    const broken = {
      ...readingOf('own', 'p1', shown(1)),
      observation: { type: 'value', value: Number.NaN },
    } as unknown as Reading;
    expect(refusalOf('own', [own], [broken])).toEqual({ reason: 'not-a-number', position: 'p1' });
  });
});

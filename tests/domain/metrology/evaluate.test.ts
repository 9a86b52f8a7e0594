import { describe, expect, it } from 'vitest';
import type { Finding } from '#domain/metrology/finding.ts';
import type { Instrument } from '#domain/metrology/instrument.ts';
import { refusalText, warningText } from '#domain/metrology/wording.ts';
import { millikelvin, nanometres } from '#domain/units/quantity.ts';
import {
  bore,
  boreGauge,
  boreLimits,
  boreReadings,
  dimension,
  feelers,
  findingOf,
  gap,
  micrometer,
  mm,
  readingOf,
  refusalOf,
  repeated,
  shown,
  upTo,
} from './measuring-bench.ts';

const size = dimension('size', { type: 'single' }, { limits: boreLimits });
const sizeAt = (millimetres: number): Finding => findingOf('size', [size], repeated('size', [mm(millimetres)]));
const warningCodes = (finding: Finding): readonly string[] => finding.warnings.map(({ code }) => code);

describe('three bands and the doubt between them', () => {
  it.each([
    [96.01, 'within standard'],
    [96.019, 'within service limit'],
    [96.06, 'within service limit'],
    [96.098, 'undecided'],
    [96.1, 'undecided'],
    [96.105, 'past the limit'],
    // No lower service limit: the standard bound is the limit there.
    [95.999, 'undecided'],
    [95.99, 'past the limit'],
  ])('a bore of %d mm, standard 96.00 to 96.02, limit 96.10, is %s', (millimetres, verdict) => {
    expect(sizeAt(millimetres).verdict).toBe(verdict);
  });

  it('the margin is the room to the nearer limit, and negative past it', () => {
    expect(sizeAt(96.06)).toMatchObject({ margin: 40_000, nearestLimit: { side: 'upper', value: mm(96.1) } });
    expect(sizeAt(96.01)).toMatchObject({ margin: 10_000, nearestLimit: { side: 'lower', value: mm(96) } });
    expect(sizeAt(96.105).margin).toBe(-5000);
  });

  it('on a limit it is past as likely as not', () => {
    const { probabilityPast } = sizeAt(96.1);
    expect(probabilityPast.low).toBeCloseTo(0.5, 12);
    expect(probabilityPast.high).toBeCloseTo(0.5, 12);
  });

  it('is decided to the nanometre: at value + guard band = limit it passes, one nanometre more is undecided', () => {
    const { guardBand } = sizeAt(96.06);
    const at = (value: number) => findingOf('size', [size], repeated('size', [value])).verdict;
    expect(at(mm(96.1) - guardBand)).toBe('within service limit');
    expect(at(mm(96.1) - guardBand + 1)).toBe('undecided');
    expect(at(mm(96.1) + guardBand)).toBe('undecided');
    expect(at(mm(96.1) + guardBand + 1)).toBe('past the limit');
  });

  it('by simple acceptance the limit itself passes and a nanometre more is past', () => {
    const simple = { ...size, rule: 'simple' as const };
    const at = (value: number) => findingOf('size', [simple], repeated('size', [value]));
    expect(at(mm(96.1))).toMatchObject({ verdict: 'within service limit', guardBand: 0, rule: 'simple' });
    expect(at(mm(96.1) + 1).verdict).toBe('past the limit');
  });

  it('between two close limits the guard bands may be kept and still less than 95 in 100 conform', () => {
    const u = sizeAt(96.01).uncertainty.standard;
    const half = Math.ceil(1.66 * u);
    const close = dimension(
      'size',
      { type: 'single' },
      { limits: { standard: {}, service: { low: nanometres(mm(96) - half), high: nanometres(mm(96) + half) } } },
    );
    const finding = findingOf('size', [close], repeated('size', [mm(96)]));
    expect(mm(96) + finding.guardBand).toBeLessThanOrEqual(mm(96) + half);
    expect(finding.probabilityPast.high).toBeGreaterThan(0.05);
    expect(finding.verdict).toBe('undecided');
  });

  it('the zero error of today’s check is taken off', () => {
    const off: Instrument = { ...boreGauge, zeroError: mm(0.004) };
    expect(findingOf('size', [size], repeated('size', [mm(96.014)]), [off]).value).toEqual({
      type: 'point',
      value: mm(96.01),
    });
  });

  it('without a gauge study the scatter of few repeats asks for a wider guard band', () => {
    const { repeatability: _, ...unstudied } = boreGauge;
    const plain: Instrument = { ...unstudied, mpe: 0, resolution: 10 };
    const finding = findingOf('size', [size], repeated('size', [mm(96.04), mm(96.042), mm(96.038)]), [plain]);
    const { standard, effectiveDegreesOfFreedom } = finding.uncertainty;
    expect(standard).toBeCloseTo(2000 / Math.sqrt(3), 1);
    expect(effectiveDegreesOfFreedom).toBeCloseTo(2, 3);
    expect(finding.guardBand / standard).toBeCloseTo(2.92, 2);
    expect(warningCodes(findingOf('size', [size], repeated('size', [mm(96.04)]), [plain]))).toContain(
      'repeatability-unknown',
    );
  });
});

describe('what cancels', () => {
  const height = dimension('height', { type: 'single' }, { limits: { standard: {}, service: {} } });
  const base = { ...height, code: 'base' };
  const lift = dimension(
    'lift',
    { type: 'difference', minuend: 'height', subtrahend: 'base' },
    { positions: [], limits: { standard: {}, service: { low: mm(7.5) } } },
  );
  const mastered: Instrument = { ...micrometer, masterUncertainty: 2000, zeroError: 7000 };
  const taken = (setting: string) => [
    readingOf('height', 'p1', shown(mm(36.5)), { instrument: micrometer.code, setting: 'morning' }),
    readingOf('base', 'p1', shown(mm(28.5)), { instrument: micrometer.code, setting }),
  ];

  it('one gauge and one setting: the master drops out of a lift', () => {
    const finding = findingOf('lift', [height, base, lift], taken('morning'), [mastered]);
    expect(finding.value).toEqual({ type: 'point', value: mm(8) });
    const each = Math.hypot(1000 / Math.sqrt(12), 3000 / Math.sqrt(3), 1200);
    expect(finding.uncertainty.standard).toBeCloseTo(Math.SQRT2 * each, 6);
    expect(warningCodes(finding)).not.toContain('settings-differ');
  });

  it('a known local error replaces the permissible error', () => {
    const local: Instrument = { ...mastered, localUncertainty: 300 };
    const { uncertainty } = findingOf('lift', [height, base, lift], taken('morning'), [local]);
    expect(uncertainty.standard).toBeCloseTo(Math.SQRT2 * Math.hypot(1000 / Math.sqrt(12), 300, 1200), 6);
  });

  it('set anew in between, the master counts twice and a warning says so', () => {
    const finding = findingOf('lift', [height, base, lift], taken('noon'), [mastered]);
    const each = Math.hypot(1000 / Math.sqrt(12), 3000 / Math.sqrt(3), 1200, 2000);
    expect(finding.uncertainty.standard).toBeCloseTo(Math.SQRT2 * each, 6);
    expect(warningCodes(finding)).toContain('settings-differ');
  });

  it('a range of equal readings is nothing, but not known without doubt', () => {
    const range = dimension(
      'warp',
      { type: 'range' },
      { positions: [{ code: 'p1' }, { code: 'p2' }], limits: upTo(undefined, 0.05) },
    );
    const finding = findingOf(
      'warp',
      [range],
      [readingOf('warp', 'p1', shown(mm(1))), readingOf('warp', 'p2', shown(mm(1)))],
    );
    expect(finding.value).toEqual({ type: 'point', value: 0 });
    expect(finding.uncertainty.standard).toBeGreaterThan(1000);
  });
});

describe('several places', () => {
  it('guide − stem: largest guide over smallest stem at most, smallest guide over largest stem at least', () => {
    const three = ['top', 'middle', 'bottom'].map((code) => ({ code }));
    const none = { standard: {}, service: {} };
    const guide = dimension('guide', { type: 'maximum' }, { positions: three, limits: none });
    const stem = dimension('stem', { type: 'minimum' }, { positions: three, limits: none });
    const clearance = dimension(
      'stem clearance',
      { type: 'difference', minuend: 'guide', subtrahend: 'stem' },
      { positions: [], limits: upTo(undefined, 0.08) },
    );
    const at = (of: string, values: readonly number[]) =>
      values.map((value, index) => readingOf(of, three[index]?.code ?? '', shown(mm(value))));
    const readings = [...at('guide', [5.03, 5.01, 5.02]), ...at('stem', [4.98, 4.97, 4.99])];
    expect(findingOf('stem clearance', [guide, stem, clearance], readings).value).toEqual({
      type: 'span',
      low: mm(0.02),
      high: mm(0.06),
    });
    const byMean = { ...guide, method: { type: 'mean' as const } };
    expect(findingOf('stem clearance', [byMean, stem, clearance], readings).value).toEqual({
      type: 'span',
      low: mm(0.03),
      high: mm(0.05),
    });
  });

  it('a bore wider at the bottom has as much taper as one wider on top', () => {
    const taper = dimension(
      'taper',
      { type: 'taper', rule: 'extremes' },
      { positions: [], readingsOf: 'bore', limits: upTo(0.01, 0.03) },
    );
    const value = (x: readonly number[], y: readonly number[]) =>
      findingOf('taper', [bore, taper], boreReadings(x, y)).value;
    expect(value([96.002, 96.006, 96.008], [96.004, 96.011, 96.015])).toEqual({ type: 'point', value: mm(0.011) });
    expect(value([96.008, 96.006, 96.002], [96.015, 96.011, 96.004])).toEqual({ type: 'point', value: mm(0.011) });
  });

  it('a steel part and a steel gauge of one warmth: the reading stands to the nanometre', () => {
    const steel = { ...size, material: { alphaPerKelvin: 11.5e-6, alphaUncertaintyPerKelvin: 0 } };
    for (let part = 273_150; part < 313_150; part += 770) {
      const temperature = { part: millikelvin(part), instrument: millikelvin(part), uncertaintyKelvin: 0 };
      const finding = findingOf('size', [steel], repeated('size', [mm(96.06)], { temperature }));
      expect(finding.value).toEqual({ type: 'point', value: mm(96.06) });
    }
  });
});

describe('a feeler shows an interval', () => {
  const ring = dimension(
    'ring gap',
    { type: 'interval' },
    { limits: { standard: { low: mm(0.2), high: mm(0.35) }, service: { high: mm(0.5) } } },
  );
  const at = (low: number, high: number | null): Finding =>
    findingOf('ring gap', [ring], [readingOf('ring gap', 'p1', gap(low, high), { instrument: feelers.code })]);

  it.each([
    [0.25, 0.3, 'within standard'],
    [0.3, 0.35, 'within service limit'],
    [0.45, 0.5, 'undecided'],
    [0.5, null, 'undecided'],
    [0.15, 0.2, 'undecided'],
    [0.1, 0.15, 'past the limit'],
    [0, 0.05, 'past the limit'],
  ])('%d went in, %d did not: %s', (low, high, verdict) => {
    expect(at(low, high).verdict).toBe(verdict);
  });

  it('is widened by its blades’ tolerances', () => {
    expect(at(0.25, 0.3).value).toEqual({ type: 'interval', low: mm(0.248), high: mm(0.302) });
    expect(at(0, 0.05).value).toEqual({ type: 'interval', low: 0, high: mm(0.052) });
    expect(at(0.5, null).value).toEqual({ type: 'interval', low: mm(0.498), high: null });
  });

  it('a stack of two blades adds both tolerances', () => {
    const stacked = {
      type: 'interval' as const,
      low: mm(0.5),
      high: mm(0.55),
      noGoStack: [mm(0.5), mm(0.05)],
    };
    const finding = findingOf('ring gap', [ring], [readingOf('ring gap', 'p1', stacked, { instrument: feelers.code })]);
    expect(finding.value).toEqual({ type: 'interval', low: mm(0.498), high: mm(0.554) });
  });

  it('without tolerance, a blade of the limit’s own thickness that did not go in proves the gap below it', () => {
    const exact: Instrument = {
      ...feelers,
      blades: (feelers.blades ?? []).map((blade) => ({ ...blade, tolerance: 0 })),
    };
    const reading = readingOf('ring gap', 'p1', gap(0.15, 0.2), { instrument: feelers.code });
    const finding = findingOf('ring gap', [ring], [reading], [exact]);
    expect(finding).toMatchObject({ verdict: 'past the limit', probabilityPast: { low: 1, high: 1 } });
    const least = readingOf('ring gap', 'p1', gap(0.2, 0.25), { instrument: feelers.code });
    expect(findingOf('ring gap', [ring], [least], [exact]).verdict).toBe('within standard');
  });

  it('straddling a limit it may be past or not: 0 to 1', () => {
    expect(at(0.45, null).probabilityPast).toEqual({ low: 0, high: 1 });
  });

  it('six gaps under a straightedge: the worst counts', () => {
    const positions = [1, 2, 3, 4, 5, 6].map((index) => ({ code: `line ${index}` }));
    const face = dimension('face', { type: 'maximum' }, { positions, limits: upTo(undefined, 0.1) });
    const gaps = [gap(0, 0.05), gap(0.05, 0.08), gap(0, 0.05), gap(0, 0.05), gap(0.05, 0.08), gap(0, 0.05)];
    const readings = gaps.map((each, index) =>
      readingOf('face', `line ${index + 1}`, each, { instrument: feelers.code }),
    );
    expect(findingOf('face', [face], readings)).toMatchObject({
      value: { type: 'interval', low: mm(0.048), high: mm(0.082) },
      verdict: 'within service limit',
    });
  });
});

describe('felt by hand', () => {
  const play = dimension('big-end play', { type: 'felt' }, { limits: { standard: {}, service: {} } });
  const felt = (present: boolean) => [
    { dimension: 'big-end play', position: 'p1', repeat: 1, observation: { type: 'felt' as const, present } },
  ];

  it('play up and down is past the limit, none claims no more than fit for service', () => {
    expect(findingOf('big-end play', [play], felt(true)).verdict).toBe('past the limit');
    expect(findingOf('big-end play', [play], felt(false)).verdict).toBe('within service limit');
    expect(refusalOf('big-end play', [play], []).reason).toBe('missing-positions');
    expect(refusalOf('big-end play', [play], repeated('big-end play', [1])).reason).toBe('wrong-observation');
  });
});

describe('warnings', () => {
  const readings = boreReadings([96.01, 96.01, 96.01], [96.01, 96.01, 96.01]);

  it('the largest of six readings is biased outward, and the budget says so', () => {
    const finding = findingOf('bore', [bore], readings);
    const bias = finding.warnings.find(({ code }) => code === 'biased-extreme');
    expect(bias).toMatchObject({ count: 6 });
    expect(bias?.code === 'biased-extreme' ? bias.expectedExcess : 0).toBeCloseTo(1.26721 * 1200, 0);
    expect(finding.uncertainty.budget.at(-1)).toMatchObject({ name: 'picked from 6 positions', contribution: 0 });
  });

  it('too coarse: U takes more than a quarter of the tolerance', () => {
    const narrow = { ...size, limits: { standard: { low: mm(96), high: mm(96.015) }, service: {} } };
    expect(warningCodes(findingOf('size', [narrow], repeated('size', [mm(96.007)])))).toContain('too-coarse');
    expect(warningCodes(sizeAt(96.007))).not.toContain('too-coarse');
  });

  it('out of calibration from the day after it was due; outside the instrument’s range', () => {
    const due = (calibrationDue: string): Instrument => ({ ...boreGauge, calibrationDue });
    const on = (day: string) => warningCodes(findingOf('size', [size], repeated('size', [mm(96.01)]), [due(day)]));
    expect(on('2026-03-02')).not.toContain('out-of-calibration');
    expect(on('2026-03-01')).toContain('out-of-calibration');
    const small: Instrument = { ...boreGauge, range: { low: mm(35), high: mm(60) } };
    expect(warningCodes(findingOf('size', [size], repeated('size', [mm(96.01)]), [small]))).toContain(
      'outside-instrument-range',
    );
  });

  it('an aluminium part without a temperature is not corrected, and said so', () => {
    const aluminium = { ...size, material: { alphaPerKelvin: 23e-6, alphaUncertaintyPerKelvin: 1e-6 } };
    const finding = findingOf('size', [aluminium], repeated('size', [mm(96.01)]));
    expect(finding.warnings).toContainEqual({
      code: 'not-corrected-to-20-degrees',
      dimension: 'size',
      missing: 'temperature',
    });
    for (const warning of finding.warnings) expect(warningText(warning)).toMatch(/\.$/);
  });
});

describe('what can’t be judged is refused', () => {
  const bladeless = readingOf('size', 'p1', gap(0.11, 0.15), { instrument: feelers.code });
  const rangeOfOne = dimension('r', { type: 'range' }, { limits: upTo(undefined, 1) });
  const flatTaper = dimension('t', { type: 'taper', rule: 'per-level' }, { limits: upTo(undefined, 1) });
  const torque = dimension('torque', { type: 'single' }, { kind: 'torque', limits: boreLimits });
  const mixed = dimension(
    'mixed',
    { type: 'difference', minuend: 'size', subtrahend: 'torque' },
    { limits: boreLimits },
  );
  const [first, ...others] = boreReadings([96, 96, 96], [96, 96, 96]);

  it.each([
    ['unknown-dimension', refusalOf('nothing', [size], [])],
    ['missing-positions', refusalOf('bore', [bore], others)],
    ['unknown-position', refusalOf('size', [size], [readingOf('size', 'p9', shown(1))])],
    ['repeated-twice', refusalOf('size', [size], [...repeated('size', [1]), ...repeated('size', [2])])],
    ['unknown-instrument', refusalOf('size', [size], repeated('size', [1], { instrument: 'lost' }))],
    [
      'instruments-mixed',
      refusalOf(
        'size',
        [size],
        [
          readingOf('size', 'p1', shown(1)),
          readingOf('size', 'p1', shown(1), { repeat: 2, instrument: micrometer.code }),
        ],
      ),
    ],
    [
      'instrument-not-named',
      refusalOf('size', [size], [{ dimension: 'size', position: 'p1', repeat: 1, observation: shown(1) }]),
    ],
    ['mixed-kinds', refusalOf('torque', [torque], repeated('torque', [1]))],
    ['mixed-kinds', refusalOf('mixed', [size, torque, mixed], [])],
    ['blade-not-in-set', refusalOf('size', [size], [bladeless])],
    [
      'empty-interval',
      refusalOf('size', [size], [readingOf('size', 'p1', gap(0.3, 0.3), { instrument: feelers.code })]),
    ],
    ['positions-do-not-fit', refusalOf('r', [rangeOfOne], repeated('r', [1]))],
    ['positions-do-not-fit', refusalOf('t', [flatTaper], repeated('t', [1]))],
    ['no-limits', refusalOf('size', [{ ...size, limits: { standard: {}, service: {} } }], repeated('size', [1]))],
    [
      'limits-inconsistent',
      refusalOf(
        'size',
        [{ ...size, limits: { standard: { high: mm(2) }, service: { high: mm(1) } } }],
        repeated('size', [1]),
      ),
    ],
    ['wrong-observation', refusalOf('size', [size], [readingOf('size', 'p1', { type: 'felt', present: true })])],
  ])('%s', (reason, refusal) => {
    expect(refusal.reason).toBe(reason);
    expect(refusalText(refusal)).toMatch(/\.$/);
  });

  it('names the positions that are still to be measured', () => {
    expect(refusalOf('bore', [bore], others)).toMatchObject({ dimension: 'bore', positions: [first?.position] });
  });
});

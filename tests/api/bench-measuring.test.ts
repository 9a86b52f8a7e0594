import { afterAll, describe, expect, test } from 'vitest';
import type { Answer } from '../support/client.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);

const post = async (operation: string, payload: object): Promise<Answer> => {
  const reply = await shop.app.inject({ method: 'POST', url: `/api/bench/${operation}`, payload });
  return { status: reply.statusCode, body: reply.json(), headers: reply.headers };
};
const page = (await shop.app.inject({ url: '/api/openapi.json' })).json();
const exampleOf = (name: string) => page.components.schemas[name].examples[0];
const mm = (value: string) => ({ value, unit: 'mm' });

describe('a gauge study from a body', () => {
  test('four bores, two people, two trials: shares, categories and what the register would keep', async () => {
    const { status, body } = await post('gauge-study', exampleOf('LooseGaugeStudy'));
    expect(status).toBe(200);
    expect(body).toMatchObject({ parts: 4, people: 2, trials: 2, standing: 'may do' });
    expect(
      body.anova.map(({ source, degreesOfFreedom }: { source: string; degreesOfFreedom: number }) => [
        source,
        degreesOfFreedom,
      ]),
    ).toEqual([
      ['part', 3],
      ['person', 1],
      ['interaction', 3],
      ['repeatability', 8],
      ['total', 15],
    ]);
    const shareOf = (source: string) => body.shares.find((share: { source: string }) => share.source === source);
    expect(shareOf('gauge').ofVariance + shareOf('part').ofVariance).toBeCloseTo(1, 12);
    expect(shareOf('gauge').ofTolerance).toBeCloseTo((6 * Number(shareOf('gauge').standardDeviation.value)) / 0.05, 2);
    expect(body.repeatability.standardDeviation.unit).toBe('mm');
    expect(body.words).toMatch(/standard deviation of 0\.0\d+ mm/);
  });

  test('a reading that is missing, one twice, and a wrong unit are pointed at', async () => {
    const example = exampleOf('LooseGaugeStudy');
    const missing = await post('gauge-study', { ...example, readings: example.readings.slice(1) });
    expect(missing.status).toBe(422);
    expect(missing.body.errors[0]).toMatchObject({ pointer: '/readings' });
    expect(missing.body.errors[0].detail).toContain('Part bore 1 has no reading by Ines in trial 1');
    const twice = await post('gauge-study', { ...example, readings: [...example.readings, example.readings[0]] });
    expect(twice.body.errors[0].pointer).toBe('/readings/16');
    const unit = await post('gauge-study', { ...example, tolerance: { value: '1', unit: 'N' } });
    expect(unit.body).toMatchObject({ type: 'urn:crosshatch:problem:unit-wrong', errors: [{ pointer: '/tolerance' }] });
  });
});

describe('a dimension drawn many times', () => {
  test('agrees with its closed form, keeps its seed, and answers the same again', async () => {
    const first = await post('monte-carlo', exampleOf('LooseMonteCarlo'));
    expect(first.status).toBe(200);
    expect(first.body).toMatchObject({ dimension: 'pin', trials: 20_000, seed: 20_261_125, level: 0.95 });
    const closed = first.body.closedForm.standardUncertainty.value;
    expect(Number(first.body.upper.standardUncertainty.value) / Number(closed)).toBeCloseTo(1, 1);
    expect((await post('monte-carlo', exampleOf('LooseMonteCarlo'))).body).toEqual(first.body);
  });

  test('more draws than are good for the shop, and a dimension that is not there, are refused', async () => {
    const example = exampleOf('LooseMonteCarlo');
    expect((await post('monte-carlo', { ...example, trials: 190_000 })).body.errors[0].pointer).toBe('/trials');
    expect((await post('monte-carlo', { ...example, dimension: 'bush' })).body.errors[0].pointer).toBe('/dimension');
  });
});

describe('wear over hours', () => {
  test('the line, hours left with their range, and the place among the family', async () => {
    const { status, body } = await post('wear', exampleOf('LooseWear'));
    expect(status).toBe(200);
    const { earliest, estimate, latest } = body.hoursLeft;
    expect(earliest).toBeLessThan(estimate);
    expect(estimate).toBeLessThan(latest);
    // Least squares by hand through (0, 12), (62, 19), (118, 24), (171, 31) µm: Sxy/Sxx = 1764.5/16208.8 = 0.1089 µm an hour.
    expect(Number(body.perHundredHours.value)).toBeCloseTo(0.01089, 5);
    expect(body.family).toMatchObject({ engines: 5, standing: 'usual' });
  });

  test('two points are no line', async () => {
    const example = exampleOf('LooseWear');
    const { status, body } = await post('wear', { ...example, points: example.points.slice(0, 2) });
    expect(status).toBe(422);
    expect(body.errors[0]).toEqual({
      pointer: '/points',
      detail: 'A line is never drawn through fewer than three points.',
    });
  });
});

describe('what work would come to', () => {
  test('a gap opens by π · 0.03, the oversize asks for 88.245 to 88.265, the ratio rises to 14.59', async () => {
    const { status, body } = await post('predictions', exampleOf('LoosePredictions'));
    expect(status).toBe(200);
    expect(Number(body.ringGap.gap.low)).toBeCloseTo(0.3 + Math.PI * 0.03, 5);
    expect(body.pistons[0]).toMatchObject({
      code: 'P-8825',
      boreTo: { low: mm('88.245'), high: mm('88.265') },
      remove: { least: mm('0.225'), most: mm('0.245') },
    });
    expect(body.pistons[1].remove).toBeNull();
    expect(body.metalLeft).toEqual(mm('0.502'));
    expect(body.resurfacing.ratioAfter).toBeCloseTo(14.59, 2);
    expect(body.resurfacing.left).toEqual(mm('0.100'));
  });

  test('a range upside down is pointed at; nothing asked is nothing foreseen', async () => {
    const example = exampleOf('LoosePredictions');
    const wrong = { ...example.pistons, clearance: { low: mm('0.06'), high: mm('0.03') } };
    expect((await post('predictions', { pistons: wrong })).body.errors[0].pointer).toBe('/pistons/clearance');
    expect((await post('predictions', {})).body).toMatchObject({ ringGap: null, pistons: [], resurfacing: null });
  });
});

describe('a sheet in the body', () => {
  const gauge = { code: 'gauge', resolution: mm('0.01'), maximumPermissibleError: mm('0.02') };

  test('a chain’s stretch in per cent, which no program knows of, from keying to verdict', async () => {
    const { status, body } = await post('findings', {
      day: '2026-11-25',
      dimensions: [
        { code: 'chain', method: 'single' },
        { code: 'new', method: 'stated', stated: mm('127.0') },
        { code: 'longer', method: 'difference', minuend: 'chain', subtrahend: 'new' },
        {
          code: 'stretch',
          kind: 'ratio',
          unit: '%',
          decimals: 2,
          method: 'ratio',
          numerator: 'longer',
          denominator: 'new',
          rule: 'guard-factor-1.3',
        },
      ],
      limits: [{ dimension: 'stretch', service: { high: { value: '1', unit: '%' } } }],
      instruments: [gauge],
      readings: [{ dimension: 'chain', instrument: 'gauge', value: mm('127.90') }],
    });
    expect(status).toBe(200);
    const stretch = body.findings.find(({ dimension }: { dimension: string }) => dimension === 'stretch');
    expect(stretch).toMatchObject({ verdict: 'within service limit', rule: 'guard-factor-1.3', value: { unit: '%' } });
    expect(Number(stretch.value.low)).toBeCloseTo(100 * (0.9 / 127), 4);
    expect(stretch.budget[0]).toMatchObject({ source: 'instrument register', distribution: 'rectangular' });
  });

  test('crossing limits, a missing dimension and a circle are refused with the field named', async () => {
    const dimensions = [
      { code: 'a', method: 'difference', minuend: 'b', subtrahend: 'own' },
      { code: 'b', method: 'difference', minuend: 'a', subtrahend: 'gone' },
      { code: 'own', method: 'single' },
    ];
    const { status, body } = await post('findings', {
      day: '2026-11-25',
      dimensions,
      limits: [{ dimension: 'own', standard: { low: mm('2'), high: mm('1') } }],
      instruments: [gauge],
      readings: [{ dimension: 'own', instrument: 'gauge', value: mm('1') }],
    });
    expect(status).toBe(422);
    expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/dimensions/0/minuend',
      '/dimensions/1/minuend',
      '/dimensions/1/subtrahend',
      '/limits/0',
    ]);
  });
});

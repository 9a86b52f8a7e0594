import { afterAll, describe, expect, test } from 'vitest';
import type { Answer } from '../support/client.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);

/** As anybody would with curl: no session, no key. */
const post = async (operation: string, payload: object): Promise<Answer> => {
  const reply = await shop.app.inject({ method: 'POST', url: `/api/bench/${operation}`, payload });
  return { status: reply.statusCode, body: reply.json(), headers: reply.headers };
};

interface Documented {
  readonly url: string;
  readonly examples: readonly Record<string, unknown>[];
}

/** The example bodies of /api/bench as the published description gives them. */
async function documented(): Promise<readonly Documented[]> {
  const page = (await shop.app.inject({ url: '/api/openapi.json' })).json();
  return Object.entries<Record<string, unknown>>(page.paths)
    .filter(([url]) => url.startsWith('/api/bench/'))
    .map(([url, { post: operation }]) => {
      // biome-ignore lint/suspicious/noExplicitAny: OpenAPI as JSON
      const { schema } = (operation as any).requestBody.content['application/json'];
      const named = schema.$ref === undefined ? schema : page.components.schemas[schema.$ref.split('/').at(-1)];
      return { url, examples: named.examples ?? [] };
    });
}

const examples = await documented();
const exampleOf = (operation: string, index = 0): object =>
  examples.find(({ url }) => url.endsWith(operation))?.examples[index] ?? {};

describe('every documented example works', () => {
  test('every operation is there, findings with at least two worked cases', () => {
    expect(examples.map(({ url }) => url.split('/').at(-1)).sort()).toEqual([
      'bearing-shells',
      'bore-comparison',
      'cam-points',
      'cam-timing',
      'compression-ratio',
      'coolant',
      'displacement',
      'fasteners',
      'fill-by-weight',
      'findings',
      'gauge-study',
      'mixture',
      'monte-carlo',
      'oil-level',
      'piston-motion',
      'port-heights',
      'port-timing',
      'predictions',
      'ring-clock',
      'ring-gap',
      'shim',
      'shims',
      'spec-sheet',
      'torque',
      'valve-to-piston',
      'wear',
      'wrench',
    ]);
    for (const one of examples)
      expect(one.examples.length).toBeGreaterThanOrEqual(one.url.endsWith('findings') ? 2 : 1);
  });

  test.each(examples.flatMap(({ url, examples: bodies }) => bodies.map((body, index) => ({ url, index, body }))))(
    '$url, example $index',
    async ({ url, body }) => {
      const reply = await shop.app.inject({ method: 'POST', url, payload: body });
      expect(reply.statusCode).toBe(200);
    },
  );
});

describe('findings from a body that carries everything', () => {
  test('three repeats of a pin: u 0.001888, U 0.003775 mm', async () => {
    const { body } = await post('findings', exampleOf('findings'));
    expect(body.refused).toEqual([]);
    expect(body.findings[0]).toMatchObject({
      value: { type: 'point', low: '19.989', high: '19.989', unit: 'mm' },
      standardUncertainty: { value: '0.001888', unit: 'mm' },
      expandedUncertainty: { value: '0.003775', unit: 'mm' },
      verdict: 'within service limit',
    });
    expect(body.findings[0].budget).toHaveLength(4);
  });

  test('a bore and its piston, warm: all five dimensions', async () => {
    const { body } = await post('findings', exampleOf('findings', 1));
    expect(body.refused).toEqual([]);
    const byCode = new Map<string, { value: { low: string; high: string }; verdict: string }>(
      body.findings.map((finding: { dimension: string }) => [finding.dimension, finding]),
    );
    // 88.048 mm at 22 °C: 2 K · (23 − 11.5) ppm/K · 88.048 mm = 0.002 mm less at 20 °C, and near enough to the limit.
    expect(Number(byCode.get('bore')?.value.low)).toBeCloseTo(88.048 - 0.002025, 5);
    expect(Number(byCode.get('out-of-round')?.value.low)).toBeCloseTo(0.009, 5);
    expect(Number(byCode.get('taper')?.value.low)).toBeCloseTo(0.017, 5);
    expect([...byCode.keys()]).toEqual(['bore', 'out-of-round', 'taper', 'piston', 'clearance']);
  });

  test('a gap that straddles its limit is undecided', async () => {
    const { body } = await post('findings', exampleOf('findings', 2));
    expect(body.findings[0]).toMatchObject({ verdict: 'undecided', value: { low: '0.546', high: '0.652' } });
  });

  test('what cannot be worked out is told, and the rest is answered', async () => {
    const example = exampleOf('findings', 1) as { readings: { dimension: string }[] };
    const { status, body } = await post('findings', {
      ...example,
      readings: example.readings.filter(({ dimension }) => dimension !== 'piston'),
    });
    expect(status).toBe(200);
    expect(body.refused.map(({ dimension, reason }: Record<string, string>) => [dimension, reason])).toEqual([
      ['piston', 'missing-positions'],
      ['clearance', 'missing-positions'],
    ]);
  });

  test('a wrong unit, an unknown dimension and a missing figure are pointed at', async () => {
    const example = exampleOf('findings') as { readings: object[]; instruments: object[]; limits: object[] };
    const wrongUnit = await post('findings', {
      ...example,
      instruments: [{ ...example.instruments[0], resolution: { value: '1', unit: 'N.m' } }],
    });
    expect(wrongUnit.status).toBe(422);
    expect(wrongUnit.body).toMatchObject({
      type: 'urn:crosshatch:problem:unit-wrong',
      errors: [{ pointer: '/instruments/0/resolution' }],
    });
    const unknown = await post('findings', { ...example, limits: [{ dimension: 'bush' }] });
    expect(unknown.body.errors[0].pointer).toBe('/limits/0/dimension');
    const nothing = await post('findings', { ...example, readings: [{ dimension: 'pin', instrument: 'micrometer' }] });
    expect(nothing.body.errors[0].pointer).toBe('/readings/0');
    expect((await post('findings', { ...example, colour: 'red' })).status).toBe(400);
  });
});

describe('the rest of the bench', () => {
  test('a shim: fitted 2.35, lash 0.09, wanted 0.13 makes 2.31; 2.30 gives 0.14', async () => {
    const { body } = await post('shim', exampleOf('shim'));
    expect(body).toMatchObject({
      wanted: { low: '2.31', high: '2.31', unit: 'mm' },
      chosen: { from: 'bin', name: 'S-230', thickness: { value: '2.30', unit: 'mm' } },
      after: { low: '0.14', high: '0.14', unit: 'mm' },
      standing: 'guaranteed',
    });
  });

  test('no shim that would do: says what is needed', async () => {
    const example = exampleOf('shim') as { candidates: object[] };
    const { body } = await post('shim', { ...example, candidates: [example.candidates[0]] });
    expect(body).toMatchObject({ chosen: null, standing: 'out' });
    expect(body.words).toContain('2.29 to 2.34 mm');
  });

  test('ring gaps: one over the pin and two too close are told', async () => {
    const { body } = await post('ring-clock', exampleOf('ring-clock'));
    expect(body.well).toBe(false);
    expect(body.rings.map(({ well }: { well: boolean }) => well)).toEqual([true, false, false]);
    expect(body.rings[2].words.join(' ')).toContain('over the pin');
  });

  test('a torque: 60 N·m with 400 and 45 mm straight on sets 53.9; bolts go crosswise', async () => {
    const { body } = await post('torque', exampleOf('torque'));
    expect(Number(body.setting.value)).toBeCloseTo(53.9, 1);
    expect(body.guard.kind).toBe('usual');
    expect(body.tightening).toEqual([1, 4, 2, 3]);
    expect(body.loosening).toEqual([3, 2, 4, 1]);
  });
});

describe('what else is said of the figures', () => {
  const mm = (value: string) => ({ value, unit: 'mm' });
  const instruments = [
    { code: 'BG', resolution: mm('0.001'), maximumPermissibleError: mm('0.001') },
    { code: 'FE', resolution: mm('0.01'), maximumPermissibleError: mm('0.002') },
  ];
  const pin = (more: object, readings: readonly object[]) =>
    post('findings', {
      day: '2026-01-02',
      dimensions: [{ code: 'pin', name: 'Pin', method: 'single', ...more }],
      limits: [{ dimension: 'pin', standard: { high: mm('20') } }],
      instruments,
      readings: readings.map((reading) => ({ dimension: 'pin', instrument: 'BG', ...reading })),
    });

  test('a figure in inches called millimetres, one that is hardly possible, one with too many decimals', async () => {
    const { body } = await pin({ plausible: { nominal: mm('20'), span: mm('1') } }, [
      { value: mm('0.787') },
      { value: mm('12.000') },
      { value: mm('19.99875') },
      { value: mm('19.999') },
    ]);
    expect(body.questions.map(({ reading, code }: Record<string, unknown>) => [reading, code])).toEqual([
      [0, 'unit-slip'],
      [1, 'implausible'],
      [2, 'too-many-decimals'],
    ]);
    expect(body.questions[0].suggestion).toEqual({ value: '19.9898', unit: 'mm' });
  });

  test('two people who differ by more than both can be sure of', async () => {
    const { body } = await pin({}, [
      { value: mm('19.990'), readBy: 'Ana' },
      { value: mm('19.970'), readBy: 'Ben' },
    ]);
    expect(body.crossChecks).toMatchObject([{ agrees: false, about: ['pin'] }]);
    expect(body.crossChecks[0].words).toContain('Ana and Ben differ by 0.020 mm on Pin');
  });

  test('a plated bore that is about to be bored', async () => {
    const { body } = await pin({ plated: true, about: 'bore' }, [{ value: mm('19.990') }]);
    expect(body.crossChecks[0].words).toBe('Pin is plated: it is never bored to size. Replate or renew it.');
  });

  test('a ring’s gap that did not grow with the bore since the earlier readings', async () => {
    const readings = (bore: string) => [
      { dimension: 'bore', instrument: 'BG', position: 'A', value: mm(bore) },
      { dimension: 'bore', instrument: 'BG', position: 'B', value: mm(bore) },
      { dimension: 'ring-gap-top', instrument: 'FE', interval: { go: '0.30', noGo: '0.35', unit: 'mm' } },
    ];
    const { status, body } = await post('findings', {
      day: '2026-01-02',
      dimensions: [
        {
          code: 'bore',
          name: 'Bore',
          method: 'size',
          positions: [
            { code: 'A', level: 1, axis: 'along' },
            { code: 'B', level: 1, axis: 'across' },
          ],
        },
        { code: 'ring-gap-top', name: 'Top ring, end gap', method: 'interval' },
      ],
      limits: [{ dimension: 'bore', standard: { high: mm('89') } }],
      instruments,
      readings: readings('88.030'),
      earlierReadings: readings('88.000'),
    });
    expect(status).toBe(200);
    expect(body.crossChecks).toMatchObject([{ agrees: false, about: ['ring-gap-top', 'bore'] }]);
  });
});

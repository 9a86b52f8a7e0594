import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import type { Answer } from '../support/client.ts';
import { boreOf, insertInstruments, pistonOf } from '../support/measuring.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { insertSpecSheet } from '../support/spec-sheet.ts';

const shop = await openShop();
afterAll(shop.close);
beforeAll(async () => {
  await insertInstruments(shop.sql, shop.people.lead);
});

const { technician, colleague, writer } = shop.as;
let serial = 0;
const newJob = async () => {
  serial += 1;
  return takeIn(shop, { serial: `F-${serial}` });
};

interface FoundWire {
  readonly id: string;
  readonly dimension: string;
  readonly verdict: string;
  readonly [fact: string]: unknown;
}
// biome-ignore lint/suspicious/noExplicitAny: a test reads the reply as JSON of whatever form it asserts
const findingIn = (answer: Answer, dimension: string): any =>
  answer.body.findings.find((finding: FoundWire) => finding.dimension === dimension);
const verdicts = (answer: Answer) =>
  Object.fromEntries(answer.body.findings.map((finding: FoundWire) => [finding.dimension, finding.verdict]));

const key = (jobId: string, dimension: string, readings: readonly object[], more: object = {}) =>
  technician.post(`/api/jobs/${jobId}/readings`, { round: 'as received', dimension, readings, ...more });
const obligationsOf = async (jobId: string) => (await technician.get(`/api/jobs/${jobId}/obligations`)).body.items;

const good = ['88.006', '88.004', '88.007', '88.005', '88.008', '88.006'];
const worn = ['88.062', '88.058', '88.055', '88.051', '88.050', '88.049'];

describe('the bore', () => {
  test('six readings give size, out-of-round and taper, each with its uncertainty', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'bore', boreOf(worn));
    expect(answer.status).toBe(201);
    expect(findingIn(answer, 'bore')).toMatchObject({
      verdict: 'past the limit',
      value: { type: 'point', low: '88.062', high: '88.062', unit: 'mm' },
      nearestLimit: { side: 'upper', value: { value: '88.050', unit: 'mm' } },
      margin: { value: '-0.012', unit: 'mm' },
      limits: { sizeClass: 'standard' },
      instruments: ['BG-2'],
      hours: '243.5',
      supersedesId: null,
    });
    // Per level: the worst difference of the axes is at the top, the worst axis falls by 12 µm.
    expect(findingIn(answer, 'bore-out-of-round').value.low).toBe('0.004');
    expect(findingIn(answer, 'bore-taper').value.low).toBe('0.012');
    const { budget, standardUncertainty, expandedUncertainty, guardBand } = findingIn(answer, 'bore');
    // u² = (1/(2√3))² + (1/√3)² + 0.8² µm², g = 1.65 u, U = 2 u.
    expect(standardUncertainty).toEqual({ value: '0.001028', unit: 'mm' });
    expect(expandedUncertainty).toEqual({ value: '0.002056', unit: 'mm' });
    expect(guardBand).toEqual({ value: '0.001697', unit: 'mm' });
    expect(budget.map(({ name }: { name: string }) => name)).toContain('repeatability, BG-2');
  });

  test('a sheet that names the other rule gives the other figures', async () => {
    const sheet = await insertSpecSheet(shop.sql, shop.people.lead, {
      code: 'X355',
      name: 'Halden by extremes',
      boreRule: 'extremes',
    });
    const { jobId } = await takeIn({ ...shop, sheet }, { serial: 'X-1' });
    const answer = await key(jobId, 'bore', boreOf(worn));
    // Extremes: max of one axis − min of the other 62 − 49; max of the top pair − max of the bottom pair 62 − 50.
    expect(findingIn(answer, 'bore-out-of-round').value.low).toBe('0.013');
    expect(findingIn(answer, 'bore-taper').value.low).toBe('0.012');
  });

  test('the zero error of today’s check is taken off, and kept with the finding', async () => {
    const other = await openShop();
    try {
      const ids = await insertInstruments(other.sql, other.people.lead);
      await other.sql`
        insert into instrument_check (id, instrument_id, zero_error, checked_by_id)
        values (gen_random_uuid(), ${ids['BG-2'] ?? ''}, 3000, ${other.people.lead})`;
      const { jobId } = await takeIn(other, { serial: 'Z-1' });
      const answer = await other.as.technician.post(`/api/jobs/${jobId}/readings`, {
        round: 'as received',
        dimension: 'bore',
        readings: boreOf(good),
      });
      expect(findingIn(answer, 'bore').value.low).toBe('88.005');
      const [row] = await other.sql<{ zero: number }[]>`
        select (instruments -> 0 ->> 'zeroError')::int as zero from finding where dimension_code = 'bore'`;
      expect(row?.zero).toBe(3000);
    } finally {
      await other.close();
    }
  });

  test('a warm cylinder is brought to 20 °C; without a temperature the reply says it was not', async () => {
    const { jobId } = await newJob();
    const cold = await key(jobId, 'bore', boreOf(good));
    expect(cold.body.findings[0].warnings.map(({ code }: { code: string }) => code)).toContain(
      'not-corrected-to-20-degrees',
    );
    const second = await newJob();
    const warm = await key(second.jobId, 'bore', boreOf(good, { partTemperature: { value: '28', unit: 'degC' } }));
    // 88.008 mm · 8 K · (23 − 11.5) ppm/K = 0.0081 mm.
    expect(Number(findingIn(warm, 'bore').value.low)).toBeCloseTo(88.008 - 0.0081, 4);
  });

  test('until all positions are there the reply says which are missing', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'bore', boreOf(good).slice(0, 4));
    expect(answer.status).toBe(201);
    expect(answer.body.findings).toEqual([]);
    expect(answer.body.missing.find(({ dimension }: FoundWire) => dimension === 'bore').positions).toEqual([
      'C-across',
      'C-along',
    ]);
  });
});

describe('a clearance', () => {
  test('is bore − piston with both uncertainties, and follows when either is measured', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(good));
    const answer = await key(jobId, 'piston', pistonOf('87.960'));
    const clearance = findingIn(answer, 'clearance');
    // Largest bore − piston 88.008 − 87.960, smallest 88.004 − 87.960.
    expect(clearance.value).toMatchObject({ type: 'span', low: '0.044', high: '0.048' });
    expect(clearance.instruments).toEqual(['BG-2', 'MI-3']);
    const u = (finding: FoundWire) => Number((finding.standardUncertainty as { value: string }).value);
    const bore = (await technician.get(`/api/jobs/${jobId}/findings`)).body.items.find(
      ({ dimension }: FoundWire) => dimension === 'bore',
    );
    expect(u(clearance)).toBeCloseTo(Math.hypot(u(bore), u(findingIn(answer, 'piston'))), 6);
  });
});

describe('a ring end gap', () => {
  test('whose blades straddle the limit is undecided and opens one obligation', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'ring-gap-top', [
      { position: '1', repeat: 1, unit: 'mm', instrumentCode: 'FE-1', interval: { go: '0.55', noGo: '0.65' } },
    ]);
    expect(answer.status).toBe(201);
    // Each blade is good to ±2 µm, which widens both ends.
    expect(findingIn(answer, 'ring-gap-top')).toMatchObject({
      verdict: 'undecided',
      value: { type: 'interval', low: '0.548', high: '0.652' },
    });
    expect(answer.body.obligations.opened).toHaveLength(1);
  });

  test('blades laid together count each with its tolerance', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'ring-gap-top', [
      { position: '1', repeat: 1, instrumentCode: 'FE-1', interval: { go: '0.25+0.10', noGo: '0.40' } },
    ]);
    expect(findingIn(answer, 'ring-gap-top').value).toMatchObject({ low: '0.346', high: '0.402' });
    expect(answer.body.readings[0]).toMatchObject({
      text: '0.25+0.10 / 0.40',
      interval: { low: '0.35', high: '0.40', unit: 'mm' },
    });
  });

  test('a blade that the set does not have is refused', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'ring-gap-top', [
      { position: '1', repeat: 1, instrumentCode: 'FE-1', interval: { go: '0.33', noGo: '0.40' } },
    ]);
    expect(answer.status).toBe(422);
    expect(answer.body.errors[0].pointer).toBe('/readings/0/interval/go');
  });

  test('at two heights it is held against the taper of the bore gauge', async () => {
    const sheet = await insertSpecSheet(shop.sql, shop.people.lead, {
      code: 'G355',
      name: 'Halden with two gaps',
      gapAtTwoHeights: true,
    });
    const { jobId, engineId } = await takeIn({ ...shop, sheet }, { serial: 'G-1' });
    await key(jobId, 'bore', boreOf(['88.006', '88.006', '88.005', '88.005', '88.005', '88.005']));
    const gap = (position: string, go: string, noGo: string) => ({
      position,
      repeat: 1,
      instrumentCode: 'FE-1',
      interval: { go, noGo },
    });
    // The gaps tell (0.448 − 0.352) / π = 0.031 mm at least; the gauge says 0.001.
    const answer = await key(jobId, 'ring-gap-top', [gap('top', '0.45', '0.50'), gap('bottom', '0.30', '0.35')]);
    expect(answer.body.crossChecks).toHaveLength(1);
    expect(answer.body.crossChecks[0].agrees).toBe(false);
    expect(answer.body.crossChecks[0].words).toContain('measure both again');
    // Kept with the finding it is about, which tells for ever what was told then; the bore was judged before the gap was known.
    const { body } = await technician.get(`/api/jobs/${jobId}/findings`);
    const told = (code: string) => body.items.find(({ dimension }: FoundWire) => dimension === code).crossChecks;
    expect(told('ring-gap-top')).toEqual(answer.body.crossChecks);
    expect(told('bore')).toEqual([]);
    const page = await technician.get(`/api/engines/${engineId}`);
    const measured = page.body.measured.find(({ dimension }: FoundWire) => dimension === 'ring-gap-top');
    expect(measured.findings[0]).toMatchObject({ revision: 1, crossChecks: answer.body.crossChecks });
    const paper = await technician.get(`/api/jobs/${jobId}/sheet`);
    const printed = paper.body.findings.find(({ dimension }: FoundWire) => dimension === 'ring-gap-top');
    expect(printed).toMatchObject({ revision: 1, disagreed: [answer.body.crossChecks[0].words] });
  });

  test('after work it is held against what the bore has grown by since; said before it is kept, and kept on the bench', async () => {
    const { jobId } = await newJob();
    const gap = (go: string, noGo: string) => [
      { position: '1', repeat: 1, instrumentCode: 'FE-1', interval: { go, noGo } },
    ];
    const bored = ['88.030', '88.030', '88.030', '88.030', '88.030', '88.030'];
    await key(jobId, 'bore', boreOf(['88.000', '88.000', '88.000', '88.000', '88.000', '88.000']));
    await key(jobId, 'ring-gap-top', gap('0.30', '0.35'));
    await key(jobId, 'bore', boreOf(bored), { round: 'after work' });
    // π × 0.030 = 0.094: 0.394 to 0.444 is due.
    const typed = (go: string, noGo: string) =>
      technician.post(`/api/jobs/${jobId}/readings/preview`, {
        round: 'after work',
        dimension: 'ring-gap-top',
        readings: gap(go, noGo),
      });
    expect((await typed('0.40', '0.45')).body.crossChecks).toMatchObject([{ agrees: true }]);
    const wrong = (await typed('0.30', '0.35')).body.crossChecks;
    expect(wrong).toMatchObject([{ agrees: false, about: ['ring-gap-top', 'bore'] }]);
    expect(wrong[0].words).toContain('the bore gauge says 0.030 mm. One of them is wrong, or it is another ring');
    await key(jobId, 'ring-gap-top', gap('0.30', '0.35'), { round: 'after work' });
    expect((await technician.get(`/api/jobs/${jobId}/bench`)).body.crossChecks).toEqual(wrong);
  });
});

test('a clearance by feeler is held against bore − piston, whichever of the three is keyed last', async () => {
  const sheet = await insertSpecSheet(shop.sql, shop.people.lead, {
    code: 'F355',
    name: 'Halden with a feeler at the piston',
    clearanceByFeeler: true,
  });
  const { jobId } = await takeIn({ ...shop, sheet }, { serial: 'FEEL-1' });
  await key(jobId, 'bore', boreOf(['88.005', '88.005', '88.005', '88.005', '88.005', '88.005']));
  await key(jobId, 'clearance-by-feeler', [
    { position: '1', repeat: 1, instrumentCode: 'FE-1', interval: { go: '0.05', noGo: '0.10' } },
  ]);
  const typed = (piston: string) =>
    technician.post(`/api/jobs/${jobId}/readings/preview`, {
      round: 'as received',
      dimension: 'piston',
      readings: pistonOf(piston),
    });
  expect((await typed('87.940')).body.crossChecks).toMatchObject([{ agrees: true }]);
  const wrong = (await typed('87.980')).body.crossChecks;
  expect(wrong).toMatchObject([{ agrees: false }]);
  expect(wrong[0].words).toContain('bore less piston is 0.025 mm. One of the three is wrong');
});

test('play felt at the big end is past the limit; none is within service', async () => {
  const { jobId } = await newJob();
  const answer = await key(jobId, 'big-end-play', [{ position: '1', repeat: 1, felt: true }]);
  expect(verdicts(answer)).toEqual({ 'big-end-play': 'past the limit' });
  const second = await newJob();
  expect(verdicts(await key(second.jobId, 'big-end-play', [{ position: '1', repeat: 1, felt: false }]))).toEqual({
    'big-end-play': 'within service limit',
  });
});

describe('bad input changes nothing', () => {
  const count = async () => (await shop.sql<{ n: number }[]>`select count(*)::int as n from reading`)[0]?.n;

  test('millimetres keyed that were inches: refused with the suggestion, kept when corrected', async () => {
    const { jobId } = await newJob();
    const before = await count();
    const slip = await key(jobId, 'bore', [
      { position: 'A-across', repeat: 1, text: '3.4646', unit: 'mm', instrumentCode: 'BG-2' },
    ]);
    expect(slip.status).toBe(422);
    expect(slip.body).toMatchObject({
      type: 'urn:crosshatch:problem:unit-slip',
      suggestion: { value: '3.4646', unit: 'in' },
      errors: [{ pointer: '/readings/0/text' }],
    });
    expect(await count()).toBe(before);
    const corrected = await key(jobId, 'bore', [
      { position: 'A-across', repeat: 1, text: '3.4646', unit: 'in', instrumentCode: 'BG-2' },
    ]);
    expect(corrected.status).toBe(201);
    expect(corrected.body.readings[0]).toMatchObject({ text: '3.4646', unit: 'in', rounded: false });
  });

  test('inches keyed that were millimetres: the other way', async () => {
    const { jobId } = await newJob();
    const slip = await key(jobId, 'bore', [
      { position: 'A-across', repeat: 1, text: '88.004', unit: 'in', instrumentCode: 'BG-2' },
    ]);
    expect(slip.body).toMatchObject({ suggestion: { value: '88.004', unit: 'mm' } });
  });

  test('sent again with a reason it is kept, and the reason with it', async () => {
    const { jobId } = await newJob();
    const readings = [{ position: 'A-across', repeat: 1, text: '3.4646', unit: 'mm', instrumentCode: 'BG-2' }];
    const kept = await key(jobId, 'bore', readings, { confirmReason: 'a miniature, it is that small' });
    expect(kept.status).toBe(201);
    expect(kept.body.readings[0].confirmReason).toBe('a miniature, it is that small');
  });

  test('a figure that is hardly possible is asked about', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'bore', [
      { position: 'A-across', repeat: 1, text: '98.004', unit: 'mm', instrumentCode: 'BG-2' },
    ]);
    expect(answer.body.type).toBe('urn:crosshatch:problem:implausible');
  });

  test('a unit of another kind, and one nobody knows, name those that fit', async () => {
    const { jobId } = await newJob();
    for (const unit of ['N.m', 'furlong']) {
      const answer = await key(jobId, 'bore', [
        { position: 'A-across', repeat: 1, text: '88.004', unit, instrumentCode: 'BG-2' },
      ]);
      expect(answer.status).toBe(422);
      expect(answer.body.type).toBe('urn:crosshatch:problem:unit-wrong');
      expect(answer.body.detail).toContain('mm');
      expect(answer.body.errors).toEqual([{ pointer: '/readings/0/unit', detail: expect.any(String) }]);
    }
  });

  test.each([
    ['an unknown position', { position: 'Q' }, 404, 'position'],
    ['an unknown instrument', { instrumentCode: 'BG-9' }, 404, 'instrumentCode'],
    ['no instrument', { instrumentCode: undefined }, 422, 'instrumentCode'],
    ['no number', { text: 'wide' }, 422, 'text'],
    ['two separators', { text: '88,004.1' }, 422, 'text'],
  ])('%s is refused', async (_what, wrong, status, field) => {
    const { jobId } = await newJob();
    const reading = { position: 'A-across', repeat: 1, text: '88.004', unit: 'mm', instrumentCode: 'BG-2', ...wrong };
    const answer = await key(jobId, 'bore', [reading]);
    expect(answer.status).toBe(status);
    expect(answer.body.errors[0].pointer).toBe(`/readings/0/${field}`);
  });

  test('a dimension that is worked out from others takes no readings', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'clearance', pistonOf('0.050'));
    expect(answer.status).toBe(422);
    expect(answer.body.detail).toContain('bore and piston');
  });

  test('an unknown dimension and an unknown job are not found', async () => {
    const { jobId } = await newJob();
    expect((await key(jobId, 'flywheel', pistonOf('1'))).status).toBe(404);
    expect((await key(crypto.randomUUID(), 'bore', boreOf(good))).status).toBe(404);
  });

  test('a reading at a place that has one is refused until that is struck', async () => {
    const { jobId } = await newJob();
    const first = await key(jobId, 'piston', pistonOf('87.960'));
    const again = await key(jobId, 'piston', pistonOf('87.961'));
    expect(again.status).toBe(409);
    await technician.post(`/api/readings/${first.body.readings[0].id}/strike`, { reason: 'held askew' });
    expect((await key(jobId, 'piston', pistonOf('87.961'))).status).toBe(201);
  });

  test('repeats at one place are taken with one instrument', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.960'));
    const other = await key(jobId, 'piston', pistonOf('87.961', { repeat: 2, instrumentCode: 'BG-2' }));
    expect(other.status).toBe(409);
    expect(other.body.detail).toContain('MI-3');
  });

  test('decimals that the instrument cannot show are kept, with a warning', async () => {
    const { jobId } = await newJob();
    const answer = await key(jobId, 'piston', pistonOf('87.96012'));
    expect(answer.status).toBe(201);
    expect(answer.body.warnings).toEqual([expect.stringContaining('5 decimals')]);
  });
});

describe('who measures', () => {
  test('a service writer does not; nobody does without a key of the write', async () => {
    const { jobId } = await newJob();
    const body = { round: 'as received', dimension: 'piston', readings: pistonOf('87.960') };
    expect((await writer.post(`/api/jobs/${jobId}/readings`, body)).status).toBe(403);
    const bare = await technician.post(`/api/jobs/${jobId}/readings`, body, { 'idempotency-key': '' });
    expect(bare.status).toBe(400);
  });

  test('the same write sent twice is done once and answered the same', async () => {
    const { jobId } = await newJob();
    const body = { round: 'as received', dimension: 'bore', readings: boreOf(worn) };
    const headers = { 'idempotency-key': crypto.randomUUID() };
    const first = await technician.post(`/api/jobs/${jobId}/readings`, body, headers);
    const second = await technician.post(`/api/jobs/${jobId}/readings`, body, headers);
    expect(second.body).toEqual(first.body);
    expect(await obligationsOf(jobId)).toHaveLength(1);
  });

  test('two benches at once: each reading is kept once, and one finding stands', async () => {
    const { jobId } = await newJob();
    const half = (from: number) => ({
      round: 'as received',
      dimension: 'bore',
      readings: boreOf(worn).slice(from, from + 3),
    });
    const [one, other] = await Promise.all([
      technician.post(`/api/jobs/${jobId}/readings`, half(0)),
      colleague.post(`/api/jobs/${jobId}/readings`, half(3)),
    ]);
    expect([one.status, other.status]).toEqual([201, 201]);
    const { body } = await technician.get(`/api/jobs/${jobId}/findings`);
    expect(body.items.filter(({ dimension }: FoundWire) => dimension === 'bore')).toHaveLength(1);
    const same = await Promise.all(
      [technician, colleague].map((who) =>
        who.post(`/api/jobs/${jobId}/readings`, {
          round: 'as received',
          dimension: 'piston',
          readings: pistonOf('87.960'),
        }),
      ),
    );
    expect(same.map(({ status }) => status).sort()).toEqual([201, 409]);
  });

  test('two people whose results differ by more than both uncertainties are told', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'piston', pistonOf('87.960'));
    const answer = await colleague.post(`/api/jobs/${jobId}/readings`, {
      round: 'as received',
      dimension: 'piston',
      readings: pistonOf('87.970', { repeat: 2 }),
    });
    expect(answer.body.crossChecks.map(({ words }: { words: string }) => words).join()).toContain('differ by 0.010 mm');
  });
});

describe('a typed figure', () => {
  test('has a verdict of its own before it is kept, and leaves nothing', async () => {
    const { jobId } = await newJob();
    const answer = await technician.post(
      `/api/jobs/${jobId}/readings/preview`,
      { round: 'as received', dimension: 'bore', readings: boreOf(['88.049']).slice(0, 1) },
      { 'idempotency-key': '' },
    );
    expect(answer.status).toBe(200);
    expect(answer.body.typed[0]).toMatchObject({ value: { value: '88.049', unit: 'mm' }, questions: [] });
    expect(answer.body.typed[0].alone).toMatchObject({ verdict: 'undecided' });
    expect(answer.body.missing[0].positions).toHaveLength(5);
    const [left] = await shop.sql<{ n: number }[]>`select count(*)::int as n from reading where job_id = ${jobId}`;
    expect(left?.n).toBe(0);
  });

  test('is judged with what stands, and asked about as it would be', async () => {
    const { jobId } = await newJob();
    await key(jobId, 'bore', boreOf(good).slice(0, 5));
    const readings = [{ position: 'C-along', repeat: 1, text: '88.070', unit: 'mm', instrumentCode: 'BG-2' }];
    const body = { round: 'as received', dimension: 'bore', readings };
    const answer = await technician.post(`/api/jobs/${jobId}/readings/preview`, body);
    expect(verdicts(answer)).toMatchObject({ bore: 'past the limit' });
    const slip = await technician.post(`/api/jobs/${jobId}/readings/preview`, {
      ...body,
      readings: [{ ...readings[0], text: '3.4646' }],
    });
    expect(slip.body.typed[0].questions).toEqual([
      expect.objectContaining({ code: 'unit-slip', suggestion: { value: '3.4646', unit: 'in' }, refused: false }),
    ]);
  });
});

describe('the bench view', () => {
  test('offers first what covers the limits, in calibration, the finest; what does not reach is last and marked', async () => {
    const other = await openShop();
    try {
      await insertInstruments(other.sql, other.people.lead);
      const gauge = (code: string, [low, high]: readonly [number, number], due: string, resolution = 1000) => other.sql`
        insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe, calibration_due_on)
        values (${newId()}, ${code}, ${code}, '', 'length', 'mm', 3, ${low}, ${high}, ${resolution}, 2000, ${due})`;
      await gauge('A-SHORT', [35_000_000, 60_000_000], '2099-01-01', 500);
      await gauge('A-NEARLY', [70_000_000, 88_020_000], '2099-01-01', 500);
      await gauge('A-PAST-DUE', [50_000_000, 100_000_000], '2020-01-01', 500);
      await gauge('A-COARSE', [50_000_000, 100_000_000], '2099-01-01', 10_000);
      await gauge('A-FINE', [50_000_000, 100_000_000], '2099-01-01', 500);
      const { jobId } = await takeIn(other, { serial: 'GAUGES-1' });
      const { body } = await other.as.technician.get(`/api/jobs/${jobId}/bench`);
      const bore = body.dimensions.find(({ code }: { code: string }) => code === 'bore');
      // The sheet of this test names no kind of instrument: BG-2 and MI-3 are of another kind than it asks for.
      expect(bore.instruments).toEqual(['A-FINE', 'A-COARSE', 'A-PAST-DUE', 'BG-2', 'MI-3', 'A-NEARLY', 'A-SHORT']);
      expect(bore.outOfReach).toEqual(['A-NEARLY', 'A-SHORT']);
    } finally {
      await other.close();
    }
  });

  test('holds sheet, instruments, readings, findings and earlier visits', async () => {
    const { jobId, engineId } = await newJob();
    await key(jobId, 'bore', boreOf(worn));
    const { status, body } = await writer.get(`/api/jobs/${jobId}/bench`);
    expect(status).toBe(200);
    expect(body).toMatchObject({ jobId, engineId, family: 'Halden 355', hours: '243.5' });
    const bore = body.dimensions.find(({ code }: { code: string }) => code === 'bore');
    expect(bore).toMatchObject({
      unit: 'mm',
      decimals: 3,
      limits: { sizeClass: 'standard', service: { high: { value: '88.050', unit: 'mm' } } },
      instruments: ['BG-2', 'MI-3'],
    });
    expect(bore.positions[0]).toMatchObject({ code: 'A-across', level: 1, axis: 'across', height: { value: '10.0' } });
    expect(bore.readings).toHaveLength(6);
    expect(bore.findings[0].verdict).toBe('past the limit');
    expect(bore.openObligationIds).toHaveLength(1);
    const feelers = body.instruments.find(({ code }: { code: string }) => code === 'FE-1');
    expect(feelers.blades[0]).toEqual({
      thickness: { value: '0.050', unit: 'mm' },
      tolerance: { value: '0.002', unit: 'mm' },
    });
    expect(feelers.check.today).toBe(true);
    await shop.sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${shop.people.lead} where id = ${jobId}`;
    const next = await takeIn(shop, { serial: `F-${serial}`, hours: '300' });
    const later = await writer.get(`/api/jobs/${next.jobId}/bench`);
    const again = later.body.dimensions.find(({ code }: { code: string }) => code === 'bore');
    expect(again.readings).toEqual([]);
    expect(again.earlier).toEqual([
      expect.objectContaining({ hours: '243.5', samePart: true, value: expect.objectContaining({ low: '88.062' }) }),
    ]);
  });
});

test('a job that was handed back takes no readings', async () => {
  const { jobId } = await newJob();
  await shop.sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${shop.people.lead} where id = ${jobId}`;
  expect((await key(jobId, 'piston', pistonOf('87.960'))).status).toBe(409);
});

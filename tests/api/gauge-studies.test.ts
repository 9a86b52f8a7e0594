import { readFileSync } from 'node:fs';
import { afterAll, describe, expect, test } from 'vitest';
import type { KeyStudy, Study } from '#contracts/gauge-studies.ts';
import { newId } from '#platform/act.ts';
import { openShop } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { sql } = shop;
const { lead, technician, clerk } = shop.as;

type Reading = KeyStudy['readings'][number];

/** Ten parts, three people, three trials: a published gauge study (its source stands in tests/outside). */
const published = readFileSync(new URL('../outside/data/metrology/gauge_rr/aiag_10x3x3.csv', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .slice(1)
  .map((line) => line.split(','));

let number = 0;
const gauge = async () => {
  number += 1;
  const id = newId();
  await sql`
    insert into instrument (id, code, name, instrument_kind, kind, unit, decimals, range_low, range_high, resolution, mpe)
    values (${id}, ${`DG-${number}`}, 'Dial gauge', 'dial gauge', 'length', 'mm', 2, -5000000, 5000000, 10000, 20000)`;
  return id;
};
const people = [shop.people.technician, shop.people.colleague, shop.people.lead];

async function started(change: object = {}): Promise<Study> {
  const { status, body } = await technician.post('/api/gauge-studies', {
    instrumentId: await gauge(),
    name: 'Dial gauge on ten parts',
    parts: 10,
    trials: 3,
    personIds: people,
    ...change,
  });
  expect(status).toBe(201);
  return body;
}

const asRead = published.map(
  ([part, person, trial, value]): Reading => ({
    part: Number(part),
    personId: people['ABC'.indexOf(person ?? '')] ?? '',
    trial: Number(trial),
    value: { value: value ?? '', unit: 'mm' },
  }),
);
const key = (id: string, readings: readonly Reading[]) =>
  technician.post(`/api/gauge-studies/${id}/readings`, { readings });
const instrumentOf = async ({ instrument }: Study) =>
  (await technician.get('/api/instruments')).body.items.find(({ id }: { id: string }) => id === instrument.id);
const pointers = (body: { errors: readonly { pointer: string }[] }) => body.errors.map(({ pointer }) => pointer);

describe('a gauge study', () => {
  test('tells no value before the last is taken; then what the published study found', async () => {
    const begun = await started();
    expect(begun).toMatchObject({ readingsTaken: 0, readingsWanted: 90, result: null, adopted: false });
    const half = await key(begun.id, asRead.slice(0, 45));
    expect(half.status).toBe(200);
    expect(half.body.readings.map(({ value }: { value: unknown }) => value)).toEqual(Array(45).fill(null));
    const whole: Study = (await key(begun.id, asRead.slice(45))).body;
    expect(whole.readings[0]).toMatchObject({ part: 1, trial: 1, value: { value: '0.29', unit: 'mm' } });
    const [part, person, interaction, scatter, total] = whole.result?.anova ?? [];
    expect(part?.sumOfSquares).toBeCloseTo(88.361934, 5);
    expect(person).toMatchObject({ source: 'person', degreesOfFreedom: 2 });
    expect(person?.sumOfSquares).toBeCloseTo(3.167262, 5);
    expect(interaction?.f).toBeCloseTo(0.433721, 5);
    expect(scatter?.meanSquare).toBeCloseTo(0.045982, 5);
    expect(total?.degreesOfFreedom).toBe(89);
    expect(whole.result).toMatchObject({ pooled: true, distinctCategories: 4, standing: 'may do' });
    // The same form by average and range: other figures, named, and nothing rests on them.
    expect(whole.result?.method).toBe('analysis of variance');
    expect(whole.result?.averageAndRange).toMatchObject({
      distinctCategories: 5,
      meanRange: { value: '0.3417', unit: 'mm' },
      shares: [{ source: 'gauge', standardDeviation: { value: '0.3058' } }, {}, {}, {}, {}],
    });
    expect(whole.result?.averageAndRange.words).toMatch(/^By average and range the gauge takes 26\.7 %.*27\.9 %/);
    expect(whole.result?.shares.map(({ source }) => source).slice(0, 3)).toEqual([
      'gauge',
      'repeatability',
      'reproducibility',
    ]);
  });

  test('a reading is replaced with a reason only, and the first stays in the books', async () => {
    const begun = await started();
    const [first] = asRead;
    if (first === undefined) throw new Error('no readings');
    expect((await key(begun.id, [first])).status).toBe(200);
    const again = await key(begun.id, [{ ...first, value: { value: '0.30', unit: 'mm' } }]);
    expect(again.status).toBe(422);
    expect(pointers(again.body)).toEqual(['/readings/0/reason']);
    const mended = await key(begun.id, [
      { ...first, value: { value: '0.30', unit: 'mm' }, reason: 'Read the wrong line' },
    ]);
    expect(mended.body).toMatchObject({ readingsTaken: 1, readings: [{ replaced: true, value: null }] });
    const kept = await sql`
      select keyed_text from gauge_study_reading r join gauge_study_person p on p.id = r.study_person_id
      where p.study_id = ${begun.id} order by keyed_at`;
    expect(kept).toMatchObject([{ keyed_text: '0.29' }, { keyed_text: '0.30' }]);
  });

  test('one bad reading keeps all out, and is named', async () => {
    const begun = await started();
    const [first, second] = asRead;
    if (first === undefined || second === undefined) throw new Error('no readings');
    const refused = async (bad: Partial<Reading>, pointer: string) => {
      const { status, body } = await key(begun.id, [first, { ...second, ...bad }]);
      expect(status).toBe(422);
      expect(pointers(body)).toEqual([pointer]);
    };
    await refused({ part: 11 }, '/readings/1/part');
    await refused({ trial: 4 }, '/readings/1/trial');
    await refused({ personId: shop.people.clerk }, '/readings/1/personId');
    await refused({ value: { value: '12.70', unit: 'mm' } }, '/readings/1/value');
    await refused({ value: { value: '3', unit: 'kPa' } }, '/readings/1/value');
    await refused({ part: 1 }, '/readings/1');
    expect((await technician.get(`/api/gauge-studies/${begun.id}`)).body.readingsTaken).toBe(0);
  });

  test('its repeatability becomes the instrument’s when the lead closes it so, and not before it is complete', async () => {
    const begun = await started({ tolerance: { value: '8', unit: 'mm' } });
    const close = (client: typeof lead, adopt: boolean) =>
      client.post(`/api/gauge-studies/${begun.id}/close`, { adopt });
    expect((await close(technician, false)).status).toBe(403);
    expect(pointers((await close(lead, true)).body)).toEqual(['/adopt']);
    await key(begun.id, asRead);
    expect((await instrumentOf(begun)).repeatability).toBeNull();
    const closed = await close(lead, true);
    // Pooled with the interaction: √((0.35898 + 2.75893) / 78) = 0.19993.
    expect(closed.body).toMatchObject({
      adopted: true,
      closed: { by: { name: 'Maren Tolk' } },
      result: { degreesOfFreedom: 78, repeatability: { value: '0.1999', unit: 'mm' }, standing: 'may do' },
    });
    expect(await instrumentOf(begun)).toMatchObject({
      repeatability: { value: '0.200' },
      repeatabilityStudyId: begun.id,
    });
    expect((await key(begun.id, asRead.slice(0, 1))).status).toBe(409);
    expect((await close(lead, false)).status).toBe(409);
  });

  test('is refused for nobody of the shop, one named twice, a tolerance of nothing, a retired gauge', async () => {
    const body = { instrumentId: await gauge(), name: 'x', parts: 2, trials: 2, personIds: people };
    const refused = async (change: object) =>
      pointers((await technician.post('/api/gauge-studies', { ...body, ...change })).body);
    expect(await refused({ personIds: [newId()] })).toEqual(['/personIds/0']);
    expect(await refused({ personIds: [people[0], people[0]] })).toEqual(['/personIds']);
    expect(await refused({ tolerance: { value: '0', unit: 'mm' } })).toEqual(['/tolerance']);
    expect((await technician.post('/api/gauge-studies', { ...body, parts: 1 })).status).toBe(400);
    await lead.post(`/api/instruments/${body.instrumentId}/retire`, { reason: 'Dropped' });
    expect((await technician.post('/api/gauge-studies', body)).status).toBe(409);
    expect((await clerk.post('/api/gauge-studies', body)).status).toBe(403);
    expect((await technician.get(`/api/gauge-studies?instrument=${body.instrumentId}`)).body.items).toEqual([]);
  });
});

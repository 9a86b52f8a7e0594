import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { boreOf, insertInstruments, pistonOf } from '../support/measuring.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { technician, colleague, writer } = shop.as;
const found = new Map<string, string>();
let jobId = '';
let engineId = '';

const draw = (dimension: string, body: object, by = technician) =>
  by.post(`/api/findings/${found.get(dimension)}/simulations`, body);
const read = (dimension: string) => colleague.get(`/api/findings/${found.get(dimension)}/simulations`);
const gaugeTo = (column: 'mpe' | 'alpha_ppb', value: number) =>
  shop.sql`update instrument set ${shop.sql({ [column]: value })} where code = 'BG-2'`;

beforeAll(async () => {
  await insertInstruments(shop.sql, shop.people.lead);
  ({ jobId, engineId } = await takeIn(shop, { serial: 'MC-1' }));
  const key = async (dimension: string, readings: readonly object[]) => {
    const answer = await technician.post(`/api/jobs/${jobId}/readings`, { round: 'as received', dimension, readings });
    expect(answer.status, JSON.stringify(answer.body)).toBe(201);
    for (const finding of answer.body.findings) found.set(finding.dimension, finding.id);
  };
  await key('bore', boreOf(['88.050', '88.049', '88.046', '88.045', '88.044', '88.044']));
  await key('piston', pistonOf('87.960'));
});

describe('a kept finding drawn by chance', () => {
  test('comes to what the closed form says, and keeps trials, seed, histogram and who drew it', async () => {
    const { status, body } = await draw('piston', { trials: 20_000, seed: 7 });
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body).toMatchObject({ trials: 20_000, seed: 7, madeBy: { id: shop.people.technician }, fromRegister: [] });
    // u² = 1²/12 + 2²/3 + 0.8² µm² = 2.0567, u = 1.4341 µm; 1.96 u = 2.811 µm.
    expect(Number(body.standardUncertainty.value)).toBeCloseTo(0.001434, 4);
    expect(body.closedForm).toMatchObject({ holds: true, tolerance: { value: '0.0005', unit: 'mm' } });
    expect(Number(body.closedForm.interval.low.value)).toBeCloseTo(87.95719, 5);
    expect(body.words).toMatch(/^The normal assumption holds/);
    const { counts, below, above } = body.histogram;
    expect(counts.reduce((sum: number, count: number) => sum + count, below + above)).toBe(20_000);
  });

  test('the same seed gives the same answer, another seed another', async () => {
    const [one, again, other] = [
      await draw('clearance', { trials: 5000, seed: 4_294_967_295 }),
      await draw('clearance', { trials: 5000, seed: 4_294_967_295 }, colleague),
      await draw('clearance', { trials: 5000, seed: 0 }),
    ];
    const drawn = ({ body: { id, madeAt, madeBy, ...rest } }: typeof one) => rest;
    expect(drawn(again)).toEqual(drawn(one));
    expect(drawn(other).mean).not.toEqual(drawn(one).mean);
    const { body } = await read('clearance');
    expect(body.items.map(({ seed }: { seed: number }) => seed)).toEqual([0, 4_294_967_295, 4_294_967_295]);
    expect(body.items[0]).toEqual(other.body);
  });

  test('the gauge counts as it was when the finding was judged, not as the register has it now', async () => {
    const before = await draw('bore', { trials: 2000, seed: 3 });
    try {
      await gaugeTo('mpe', 50_000);
      await gaugeTo('alpha_ppb', 99_000);
      const after = await draw('bore', { trials: 2000, seed: 3 });
      expect(after.body.standardUncertainty).toEqual(before.body.standardUncertainty);
      expect(after.body.histogram).toEqual(before.body.histogram);
    } finally {
      await gaugeTo('mpe', 1000);
      await gaugeTo('alpha_ppb', 11_500);
    }
  });

  test('a reading struck since still counts in the finding that rests on it', async () => {
    const before = await draw('piston', { trials: 1000, seed: 5 });
    const { body } = await technician.get(`/api/jobs/${jobId}/findings`);
    const { readingIds } = body.items.find(({ id }: { id: string }) => id === found.get('piston'));
    expect(
      (await technician.post(`/api/readings/${readingIds[0]}/strike`, { reason: 'Read upside down' })).status,
    ).toBe(200);
    expect((await draw('piston', { trials: 1000, seed: 5 })).body.histogram).toEqual(before.body.histogram);
  });

  test('the verdict stays, nothing kept can be changed, and the engine’s history tells of it', async () => {
    const verdicts = async () =>
      (await technician.get(`/api/jobs/${jobId}/findings`)).body.items.map(
        ({ verdict }: { verdict: string }) => verdict,
      );
    const before = await verdicts();
    await draw('bore', { trials: 1000, seed: 1 });
    expect(await verdicts()).toEqual(before);
    await expect(shop.sql`update finding_simulation set seed = 2`).rejects.toThrow();
    await expect(shop.sql`delete from finding_simulation`).rejects.toThrow();
    const [event] = await shop.sql<{ data: object }[]>`
      select data from event where engine_id = ${engineId} and kind = 'finding.drawn' order by recorded_at desc limit 1`;
    expect(event?.data).toMatchObject({ dimension: 'bore', trials: 1000, seed: 1 });
  });

  test.each([
    ['too few trials', { trials: 999 }, '/trials'],
    ['more trials than can be asked for', { trials: 200_001 }, '/trials'],
    ['a seed below nothing', { seed: -1 }, '/seed'],
    ['a seed too large', { seed: 4_294_967_296 }, '/seed'],
    ['half a trial', { trials: 1000.5 }, '/trials'],
  ])('%s: refused, with the field named', async (_, body, pointer) => {
    const answer = await draw('bore', body);
    expect(answer.status).toBeGreaterThanOrEqual(400);
    expect(answer.status).toBeLessThan(500);
    expect(answer.body.errors[0].pointer).toBe(pointer);
  });

  test('more trials than so many readings allow: refused, saying how many may be drawn', async () => {
    const answer = await draw('bore', { trials: 100_000 });
    expect(answer.status).toBe(422);
    expect(answer.body.detail).toMatch(/With 6 readings 83333 trials are the most/);
    expect(answer.body.errors[0].pointer).toBe('/trials');
  });

  test('an unknown finding is not found; who may not measure may look but not draw', async () => {
    expect((await technician.post(`/api/findings/${newId()}/simulations`, {})).status).toBe(404);
    expect((await technician.get(`/api/findings/${newId()}/simulations`)).status).toBe(404);
    expect((await draw('bore', {}, writer)).status).toBe(403);
    expect((await writer.get(`/api/findings/${found.get('bore')}/simulations`)).status).toBe(200);
  });
});

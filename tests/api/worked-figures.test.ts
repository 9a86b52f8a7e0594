import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { calculationExamples } from '#contracts/build-arithmetic-examples.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';

let shop: Shop;
let jobId: string;
beforeAll(async () => {
  shop = await openShop();
  ({ jobId } = await takeIn(shop, { serial: 'H355-730' }));
});
afterAll(() => shop.close());

const ratio = { kind: 'compression-ratio', given: calculationExamples['compression-ratio'] };
const keep = (body: object) => shop.as.technician.post(`/api/jobs/${jobId}/worked-figures`, body);

describe('a calculation kept with a job', () => {
  test('holds what the server worked out, by whom, and stands on the build sheet', async () => {
    const kept = await keep({ ...ratio, note: 'As it came in' });
    expect(kept.status).toBe(201);
    const alone = await shop.as.technician.post('/api/bench/compression-ratio', ratio.given);
    expect(kept.body).toMatchObject({ figures: alone.body.figures, note: 'As it came in', struck: null });
    const sheet = await shop.as.technician.get(`/api/jobs/${jobId}/sheet`);
    expect(sheet.body.worked).toMatchObject([{ id: kept.body.id, kind: 'compression-ratio', given: ratio.given }]);
    const told = await shop.sql`select data from event where job_id = ${jobId} and kind = 'figure.kept'`;
    expect(told.map(({ data }) => data)).toMatchObject([{ calculation: 'compression-ratio' }]);
  });

  test('is refused with the field when an input can’t be, and nothing is kept', async () => {
    const before = (await shop.as.technician.get(`/api/jobs/${jobId}/worked-figures`)).body.items.length;
    const wrong = await keep({ ...ratio, given: { ...ratio.given, rodLength: { value: '20', unit: 'mm' } } });
    expect(wrong).toMatchObject({ status: 422, body: { errors: [{ pointer: '/given/rodLength' }] } });
    expect((await keep({ kind: 'horsepower', given: {} })).status).toBe(400);
    expect((await shop.as.technician.get(`/api/jobs/${jobId}/worked-figures`)).body.items).toHaveLength(before);
  });

  test('what chooses is kept too: worked out here, with what speaks against it', async () => {
    const mm = (value: string) => ({ value, unit: 'mm' });
    const at = (number: number, x: string, y: string) => ({ number, x: mm(x), y: mm(y) });
    const square = [at(1, '-50', '50'), at(2, '50', '50'), at(3, '50', '-50'), at(4, '-50', '-50')];
    const stages = [{ torque: { value: '30', unit: 'N.m' } }, { angle: { value: '90', unit: 'deg' } }];
    const set = await keep({ kind: 'fastener-set', given: { positions: square, stages, reuse: 'one-time' } });
    expect(set.status).toBe(201);
    expect(set.body.rows.map(({ name }: { name: string }) => name)).toEqual(['Stage 1', 'Stage 2']);
    expect(set.body.cautions[0].words).toBe('Tightened 1 3 2 4; loosened 4 2 3 1.');
    const rings = { rings: [{ code: 'top' }, { code: 'second', placed: { value: '50', unit: 'deg' } }], rule: {} };
    const gaps = await keep({
      kind: 'ring-clock',
      given: { ...rings, leastSeparation: { value: '90', unit: 'deg' } },
    });
    expect(gaps.body.rows[1]).toEqual({ name: 'second', figures: { angle: { value: '50', unit: 'deg' } } });
    const wrench = { torque: { value: '60', unit: 'N.m' }, day: '2026-11-25', wrenches: [] };
    expect((await keep({ kind: 'wrench', given: wrench })).body.figures.setting).toEqual({
      value: '60.0',
      unit: 'N.m',
    });
    const sheet = await shop.as.technician.get(`/api/jobs/${jobId}/sheet`);
    expect(sheet.status).toBe(200);
    const bad = [{ angle: { value: '400', unit: 'deg' } }];
    expect(await keep({ kind: 'fastener-set', given: { positions: square, stages: bad } })).toMatchObject({
      status: 422,
    });
    const wrongForm = await keep({ kind: 'whole-head', given: { heads: [] } });
    expect(wrongForm).toMatchObject({
      status: 422,
      body: { errors: [{ pointer: '/given/heads' }, { pointer: '/given/stored' }] },
    });
  });

  test('is struck once, with a reason, and leaves the sheet but not the books', async () => {
    const { body } = await keep({ kind: 'port-timing', given: calculationExamples['port-timing'] });
    const strike = () => shop.as.technician.post(`/api/worked-figures/${body.id}/strike`, { reason: 'A four-stroke' });
    expect((await strike()).body.struck).toMatchObject({ reason: 'A four-stroke' });
    expect((await strike()).status).toBe(409);
    const all = await shop.as.technician.get(`/api/jobs/${jobId}/worked-figures`);
    expect(all.body.items.map(({ id }: { id: string }) => id)).toContain(body.id);
    const sheet = await shop.as.technician.get(`/api/jobs/${jobId}/sheet`);
    expect(sheet.body.worked.map(({ id }: { id: string }) => id)).not.toContain(body.id);
  });

  test('is never edited, not even in the database', async () => {
    await expect(shop.sql`update worked_figure set note = 'better'`).rejects.toThrow();
    await expect(shop.sql`delete from worked_figure`).rejects.toThrow();
  });

  test('is kept by those who work at a bench, on a job that is still here', async () => {
    expect((await shop.as.clerk.post(`/api/jobs/${jobId}/worked-figures`, ratio)).status).toBe(403);
    await shop.as.lead.post(`/api/jobs/${jobId}/hand-back`, { override: 'The owner fetches it as it is' });
    expect((await keep(ratio)).status).toBe(409);
  });
});

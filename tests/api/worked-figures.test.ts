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

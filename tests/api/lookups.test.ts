import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart } from '../support/stores.ts';

const shop = await openShop();
afterAll(shop.close);

const { clerk, writer, technician } = shop.as;
const scan = (text: string) => clerk.post('/api/scans', { text });

describe('what people call a thing, typed where labels are scanned', () => {
  let jobId: string;
  let bin: { id: string; code: string };
  let partId: string;
  beforeAll(async () => {
    jobId = (await takeIn(shop, { serial: 'H355-0402' })).jobId;
    bin = await addBin(shop.sql);
    partId = (await addPart(shop.sql, { number: 'H355-P', name: 'Piston' })).id;
    await addLot(shop, { partId, quantity: 2, binId: bin.id });
    await addLot(shop, { partId, quantity: 1, binId: bin.id });
    const { status } = await technician.post(`/api/jobs/${jobId}/trays`, { name: 'Cam caps', label: 'T-7' });
    expect(status).toBe(201);
  });

  test('of a part leads to the part, whatever the case it was typed in', async () => {
    expect((await scan(' h355-p ')).body).toEqual({
      kind: 'part',
      part: { id: partId, number: 'H355-P', name: 'Piston' },
      retired: false,
      supersededBy: null,
    });
  });

  test('of a bin names each part in it once', async () => {
    const { body } = await scan(bin.code);
    expect(body).toEqual({
      kind: 'bin',
      id: bin.id,
      code: bin.code,
      closed: false,
      parts: [{ id: partId, number: 'H355-P', name: 'Piston' }],
    });
  });

  test('of a tray leads to its job', async () => {
    const { body } = await scan('t-7');
    expect(body).toMatchObject({ kind: 'tray', label: 'T-7', job: { id: jobId, serial: 'H355-0402' } });
  });

  test('that nobody knows is not found, and one without a letter is refused', async () => {
    expect((await scan('%')).status).toBe(404);
    expect((await scan('  ')).status).toBe(400);
  });

  test('a closed bin is not offered for goods that come in', async () => {
    const closed = await addBin(shop.sql, true);
    const { body } = await clerk.get('/api/bins');
    const codes = body.items.map(({ code }: { code: string }) => code);
    expect(codes).toContain(bin.code);
    expect(codes).not.toContain(closed.code);
  });
});

describe('owners and vendors', () => {
  test('owners are found by part of a name, each with their engines; a percent sign is a letter like any other', async () => {
    await takeIn(shop, { serial: 'H355-0901', owner: 'Wim 100 % de Graaf' });
    const { body } = await writer.get('/api/owners?search=de%20gra');
    expect(body.items).toMatchObject([{ name: 'Wim 100 % de Graaf', engines: 1 }]);
    expect((await writer.get('/api/owners?search=0%20%25')).body.items).toHaveLength(1);
    expect((await writer.get('/api/owners?search=%25%25')).body.items).toHaveLength(0);
  });

  test('how to reach an owner is not told to those who have no counter', async () => {
    expect((await technician.get('/api/owners')).status).toBe(403);
    expect((await technician.get('/api/vendors')).body.items).toMatchObject([
      { name: 'Saltmere Plating', trade: 'plating' },
    ]);
  });

  test('a vendor nobody deals with any more is not offered', async () => {
    await shop.sql`insert into vendor (id, name, trade, retired_at) values (gen_random_uuid(), 'Old Bores', 'boring', clock_timestamp())`;
    expect((await clerk.get('/api/vendors')).body.items).toHaveLength(1);
  });
});

describe('the newest quote of every open job', () => {
  const line = (minor: string) => ({
    lines: [{ kind: 'labour', words: 'Hone', quantity: 1, each: { minor, currency: 'EUR' } }],
  });

  test('is the last one sent, with what was said to it, and only for those who see money', async () => {
    const { jobId } = await takeIn(shop, { serial: 'H355-0777' });
    await writer.post(`/api/jobs/${jobId}/quotes`, line('10000'));
    const { body: sent } = await writer.post(`/api/jobs/${jobId}/quotes`, line('12000'));
    const ofJob = async () =>
      (await writer.get('/api/quotes')).body.items.find((quote: { jobId: string }) => quote.jobId === jobId);
    expect(await ofJob()).toMatchObject({
      number: 2,
      total: { minor: '12000', currency: 'EUR' },
      yes: null,
      sum: null,
    });
    const yes = { yes: true, sum: { minor: '12000', currency: 'EUR' }, saidBy: 'Ingrid Falk', how: 'in writing' };
    expect((await writer.post(`/api/quotes/${sent.id}/answer`, yes)).status).toBe(200);
    expect(await ofJob()).toMatchObject({ yes: true, sum: { minor: '12000', currency: 'EUR' } });
    expect((await technician.get('/api/quotes')).status).toBe(403);
  });
});

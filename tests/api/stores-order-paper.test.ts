import { afterAll, describe, expect, test } from 'vitest';
import { orderPdf } from '#features/stores/supply/order-pdf.ts';
import { wordsOfPdf } from '../support/pdf-words.ts';
import { openShop } from '../support/shop.ts';
import { addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql, vendorId } = shop;
const { clerk, lead, technician, writer } = shop.as;
afterAll(shop.close);

const money = (minor: string) => ({ minor, currency: 'EUR' });
async function order(lines: readonly object[], words?: string) {
  const { status, body } = await clerk.post('/api/purchase-orders', { vendorId, lines, ...(words && { words }) });
  expect(status, JSON.stringify(body)).toBe(201);
  return body;
}
const priced = (partId: string, minor: string, more: object = {}) =>
  clerk.post('/api/vendor-prices', { vendorId, partId, price: money(minor), validFrom: '2020-01-01', ...more });
/** What stands on the sheet, each page in one string: a name that wraps is read on. */
const paperOf = async (id: string, seesMoney = true) =>
  (await wordsOfPdf((await orderPdf(sql, id, seesMoney)).pdf)).map((words) => words.join(' '));

describe('the shop’s address', () => {
  test('is set up by its lead and stands on every paper that leaves', async () => {
    const told = { address: 'Quarry Lane 7\n4021 Saltmere', phone: '555 0100', email: ' stores@quarrylane.example ' };
    expect((await lead.patch('/api/shop', told)).status).toBe(200);
    expect((await lead.get('/api/shop')).body).toMatchObject({ ...told, email: told.email.trim() });
    expect((await writer.patch('/api/shop', { phone: '1' })).status).toBe(403);
    const refused = await lead.patch('/api/shop', { email: 'nobody' });
    expect([refused.status, refused.body.errors[0].pointer]).toEqual([400, '/email']);
    await expect(sql`update shop set email = 'two words@x'`).rejects.toThrow('shop_email_form');
    const part = await addPart(sql);
    const { id, from } = await order([{ partId: part.id, quantity: 1 }]);
    expect(from).toEqual({ name: 'Quarry Lane Engines', ...told, email: told.email.trim() });
    expect((await clerk.get(`/api/purchase-orders/${id}/text`)).body).toContain(
      'From     Quarry Lane Engines\r\n         Quarry Lane 7\r\n         4021 Saltmere\r\n         555 0100\r\n         stores@quarrylane.example\r\nTo       Saltmere Plating',
    );
    expect((await paperOf(id))[0]).toContain('Quarry Lane 7 4021 Saltmere 555 0100 stores@quarrylane.example');
  });
});

describe('an order as a PDF', () => {
  test('says packs, pieces, prices, sums and days as another reader reads them', async () => {
    const washer = await addPart(sql, { name: 'Copper washer' });
    const pin = await addPart(sql, { name: 'Gudgeon pin' });
    await priced(washer.id, '450', { packSize: 10, theirNumber: 'K 77' });
    await priced(pin.id, '123456');
    const { id, number } = await order(
      [
        { partId: washer.id, packs: 3, wantedOn: '2026-12-04' },
        { partId: pin.id, quantity: 2, promisedOn: '2026-12-09' },
      ],
      'Deliver before ten',
    );
    const [page, ...others] = await paperOf(id);
    expect(others).toEqual([]);
    for (const words of [
      `Order ${number}`,
      'To Saltmere Plating',
      'K 77 Copper washer',
      `Our number ${washer.number}`,
      '3 packs of 10 = 30 pieces 2026-12-04 4.50 13.50',
      '2 pieces promised 2026-12-09 1,234.56 2,469.12',
      'Sum 2,482.62 EUR',
      'Deliver before ten',
      'Page 1 of 1',
    ])
      expect(page?.replace(/\s+/g, ' ')).toContain(words);
    expect((await clerk.get(`/api/purchase-orders/${id}`)).body.lines[0]).toMatchObject({ wantedOn: '2026-12-04' });
    expect((await clerk.get(`/api/purchase-orders/${id}/text`)).body).toContain('Wanted by 2026-12-04');
    expect((await clerk.get(`/api/purchase-orders/${id}/csv`)).body).toContain(',0,2026-12-04,\r\n');
  });

  test('tells the vendor what was said of a line, on every paper and at the receiving desk, and it stays', async () => {
    const shell = await addPart(sql, { name: 'Crankpin shell' });
    const { id } = await order([{ partId: shell.id, quantity: 2, words: ' in grade B ' }]);
    const read = (await clerk.get(`/api/purchase-orders/${id}`)).body;
    expect(read.lines[0]).toMatchObject({ words: 'in grade B' });
    expect((await paperOf(id))[0]).toContain(`Crankpin shell in grade B Our number ${shell.number}`);
    expect((await clerk.get(`/api/purchase-orders/${id}/text`)).body).toContain(
      `     Crankpin shell\r\n     in grade B\r\n     Our number ${shell.number}`,
    );
    expect((await clerk.get(`/api/purchase-orders/${id}/csv`)).body).toContain(',Crankpin shell,in grade B,');
    const { lines } = (await clerk.get(`/api/stores/expected?vendorId=${vendorId}`)).body;
    expect(lines.find((line: { id: string }) => line.id === read.lines[0].id)).toMatchObject({ words: 'in grade B' });
    const change = sql`update purchase_line set words = 'in grade C' where id = ${read.lines[0].id}`;
    await expect(change).rejects.toThrow('stays as it went out');
    const long = await clerk.post('/api/purchase-orders', {
      vendorId,
      lines: [{ partId: shell.id, quantity: 1, words: 'x'.repeat(301) }],
    });
    expect([long.status, long.body.errors[0].pointer]).toEqual([400, '/lines/0/words']);
  });

  test('has no price for who may not see money, and says where a price is not known', async () => {
    const [known, unknown] = [await addPart(sql), await addPart(sql)];
    await priced(known.id, '7777');
    const { id, number } = await order([
      { partId: known.id, quantity: 1 },
      { partId: unknown.id, quantity: 1 },
    ]);
    const [seen] = await paperOf(id);
    expect(seen).toContain('77.77');
    expect(seen).toContain('Of one line no price is known');
    const [hidden] = await paperOf(id, false);
    expect(hidden).not.toMatch(/77\.77|Price|Sum/);
    const { status, headers } = await technician.get(`/api/purchase-orders/${id}/pdf`);
    expect([status, headers['content-type'], headers['cache-control']]).toEqual([200, 'application/pdf', 'no-store']);
    expect(headers['content-disposition']).toBe(`inline; filename="order-${number}.pdf"`);
  });

  test('goes on over pages with its head and number on each, no line missing, no long name cut off', async () => {
    const long =
      'Kurbelgehäuseentlüftungsschlauchbefestigungsschellensatz mit Dichtung, links, für die Ölkühlerleitung';
    const parts = await Promise.all(
      Array.from({ length: 60 }, (_, at) => addPart(sql, { name: at % 7 === 0 ? `${long} ${at}` : `Stud ${at}` })),
    );
    const { id, number } = await order(parts.map(({ id: partId }, at) => ({ partId, quantity: at + 1 })));
    const pages = await paperOf(id);
    expect(pages.length).toBeGreaterThan(1);
    pages.forEach((page, at) => {
      expect(page).toContain(`Page ${at + 1} of ${pages.length}`);
      expect(page).toContain('How many');
      expect(page).toContain(`Order ${number}`);
    });
    const all = pages.join(' ').replace(/\s+/g, '');
    for (const [at, part] of parts.entries()) {
      expect(all).toContain(`Ournumber${part.number}`);
      expect(all).toContain((at % 7 === 0 ? `${long} ${at}` : `Stud ${at}`).replace(/\s+/g, ''));
    }
    const bytes = await Promise.all([orderPdf(sql, id, true), orderPdf(sql, id, true)]);
    expect(bytes[0]?.pdf.equals(bytes[1]?.pdf ?? Buffer.of())).toBe(true);
  });
});

import { afterAll, describe, expect, test } from 'vitest';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, lead, technician } = shop.as;
afterAll(async () => {
  await expectBooksToAgree(sql);
  await shop.close();
});

const linesOf = async (path: string): Promise<string[]> => (await clerk.get(path)).body.trimEnd().split('\r\n');

/** A bin with two parts, one of them in two lots, and a sheet begun for it. */
async function counting() {
  const [rings, seals] = [await addPart(sql), await addPart(sql)];
  const bin = await addBin(sql);
  await addLot(shop, { partId: rings.id, quantity: 7341, binId: bin.id });
  const [first, second] = [
    await addLot(shop, { partId: seals.id, quantity: 4, binId: bin.id }),
    await addLot(shop, { partId: seals.id, quantity: 5, binId: bin.id }),
  ];
  await sql`update stock_lot set code = 'S-1' where id = ${first}`;
  await sql`update stock_lot set code = 'S-2' where id = ${second}`;
  const { body: sheet } = await clerk.post('/api/count-sheets', { binIds: [bin.id] });
  const bring = (text: string, by = clerk, step = '') =>
    by.post(`/api/count-sheets/${sheet.id}/counts/import${step}`, text);
  return { rings, seals, bin, sheet, bring };
}
const entries = async (sheetId: string) =>
  (
    await sql`select e.counted from count_entry e join count_line l on l.id = e.line_id where l.sheet_id = ${sheetId} order by e.id`
  ).map(({ counted }) => counted);

describe('a count from a file', () => {
  test('goes out blind, is checked, comes in whole, and is handed in as if it was keyed', async () => {
    const { rings, seals, bin, sheet, bring } = await counting();
    const out = await linesOf(`/api/count-sheets/${sheet.id}/sheet.csv`);
    expect(out).toHaveLength(4);
    expect(out[0]).toBe('bin,part,name,lot,serial,counted,line');
    expect(out.join('\n')).not.toContain('7341');
    const filled = `bin;part;lot;counted\n${bin.code.toLowerCase()};${rings.number};;7341\n${bin.code};${seals.number};s-1;4\n${bin.code};${seals.number};S-2;\n`;
    const would = { rows: 2, added: 2, changed: 0, unchanged: 0 };
    expect((await bring(filled, clerk, '/check')).body).toEqual(would);
    expect(await entries(sheet.id)).toEqual([]);
    expect(await bring(filled)).toMatchObject({ status: 201, body: would });
    expect(await entries(sheet.id)).toHaveLength(2);
    // Its own file with the last line filled in changes nothing of what was keyed.
    const again = (await clerk.get(`/api/count-sheets/${sheet.id}/sheet.csv`)).body.replace(/(S-2,,)(,)/, '$15$2');
    expect((await bring(again)).body).toEqual({ rows: 3, added: 1, changed: 0, unchanged: 2 });
    const handed = await clerk.post(`/api/count-sheets/${sheet.id}/hand-in`, { round: 1 });
    expect(handed.body).toMatchObject({ right: 3, again: 0 });
    const told = await sql`select data from event where kind = 'count.keyed-by-file'`;
    expect(told.map(({ data }) => data)).toContainEqual({ sheet: sheet.number, lines: 2 });
  });

  test('of which one row is wrong is named by row and column, and nothing of it is kept', async () => {
    const { rings, seals, bin, sheet, bring } = await counting();
    const row = (...cells: string[]) => `${cells.join(',')}\n`;
    const refused = await bring(
      `bin,part,lot,counted\n${row(bin.code, rings.number, '', '12')}${row(bin.code, seals.number, '', '4')}` +
        row(bin.code, seals.number, 'S-9', '4') +
        row('Q-404', rings.number, '', '1') +
        row(bin.code, 'NO-SUCH', '', '1') +
        row(bin.code, rings.number, '', '-3') +
        row(bin.code, rings.number, '', '13'),
    );
    expect(refused.status).toBe(422);
    expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      'row 3, column part',
      'row 4, column lot',
      'row 5, column bin',
      'row 6, column part',
      'row 7, column counted',
      'row 8, column part',
    ]);
    expect(JSON.stringify(refused.body)).not.toContain('7341');
    expect(await entries(sheet.id)).toEqual([]);
  });

  test('is for the one who counts the sheet, and for a round that goes on', async () => {
    const { rings, bin, sheet, bring } = await counting();
    const file = `bin,part,counted\n${bin.code},${rings.number},1\n`;
    expect((await bring(file, lead)).status).toBe(409);
    expect((await bring(file, technician)).status).toBe(403);
    expect((await lead.get(`/api/count-sheets/${sheet.id}/sheet.csv`)).body).not.toContain(',1,');
    await clerk.post(`/api/count-sheets/${sheet.id}/give-up`, { reason: 'the bin is moved' });
    expect((await bring(file)).status).toBe(409);
  });
});

describe('what stores list goes out as a file', () => {
  test('the walk, what comes, what to order, vendors and when to count', async () => {
    const part = await addPart(sql, { name: '=1+1' });
    const low = await addPart(sql, { reorderPoint: 3 });
    const bin = await addBin(sql);
    await addLot(shop, { partId: part.id, quantity: 3, binId: bin.id });
    const { jobId } = await takeIn(shop, { serial: 'H355-8300' });
    await demand(shop, jobId, [[part.id, 2]]);
    await technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: true });
    const [job] = await sql`select number from job where id = ${jobId}`;
    const found = async (path: string, text: string) => (await linesOf(path)).find((line) => line.includes(text)) ?? '';
    expect(await found('/api/stores/pick-walk.csv', part.number)).toMatch(
      new RegExp(`,${bin.code},${part.number},'=1\\+1,,,,2,piece,${job?.number},.*,H355-8300,,yes$`),
    );
    const lines = [{ partId: part.id, quantity: 5, promisedOn: '2020-02-03' }];
    const { body: order } = await clerk.post('/api/purchase-orders', { vendorId: shop.vendorId, lines });
    expect(await found('/api/stores/expected.csv', part.number)).toBe(
      `${order.vendor.name},${order.number},${part.number},'=1+1,,5,0,piece,1,2020-02-03,yes,,${order.lines[0].id}`,
    );
    expect(await found('/api/stores/to-buy.csv', low.number)).toContain(',low,,0,0,0,3');
    expect(await found('/api/vendors.csv', order.vendor.name)).toMatch(/,no$/);
    expect(await found('/api/count-schedule.csv', bin.code)).toMatch(/,never,/);
  });
});

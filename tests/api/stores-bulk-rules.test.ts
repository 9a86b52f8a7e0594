import { afterAll, expect, test } from 'vitest';
import { openShop } from '../support/shop.ts';
import { addBin, addLot, addPart } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { lead, clerk } = shop.as;
afterAll(shop.close);

const rules = async () =>
  (await clerk.get('/api/count-rules')).body.items.map(
    (rule: { class: string; tolerancePieces: number; tolerancePercent: string; everyDays: number }) =>
      `${rule.class} ${rule.tolerancePieces} ${rule.tolerancePercent} ${rule.everyDays}`,
  );

test('rules of several classes are set in one act, what is left out stays, and it is shown first what becomes due', async () => {
  const bin = await addBin(sql);
  await addLot(shop, { partId: (await addPart(sql)).id, quantity: 2, binId: bin.id });
  await lead.post('/api/count-rules', { class: 'B', tolerancePieces: 1, tolerancePercent: '1', everyDays: 60 });
  const before = await rules();
  expect(before).toEqual(['A 0 0.2 30', 'B 1 1 60', 'C 0 5 182']);
  const asked = { classes: ['C', 'B'], everyDays: 60, tolerancePercent: '1,0' };
  const would = (await lead.post('/api/count-rules/changes/check', asked)).body;
  expect(would).toMatchObject({
    items: [
      {
        class: 'C',
        changes: [
          { fact: 'tolerancePercent', from: '5', to: '1' },
          { fact: 'everyDays', from: '182', to: '60' },
        ],
      },
    ],
    unchanged: 1,
  });
  expect(await rules()).toEqual(before);
  const done = await lead.post('/api/count-rules/changes', asked);
  expect([done.status, done.body]).toEqual([201, would]);
  expect(await rules()).toEqual(['A 0 0.2 30', 'B 1 1 60', 'C 0 1 60']);
  expect((await sql`select from event where kind = 'count.rule-set'`).length).toBe(2);
  expect((await lead.post('/api/count-rules/changes', asked)).body).toMatchObject({ items: [], unchanged: 2 });
});

test('how many bins are due after it is counted by the rules as they would be', async () => {
  const bin = await addBin(sql);
  await addLot(shop, { partId: (await addPart(sql)).id, quantity: 2, binId: bin.id });
  const { body: sheet } = await clerk.post('/api/count-sheets', { binIds: [bin.id] });
  await clerk.post(`/api/count-sheets/${sheet.id}/counts`, { lineId: sheet.lines[0].id, counted: 2 });
  expect((await clerk.post(`/api/count-sheets/${sheet.id}/hand-in`, { round: 1 })).status).toBeLessThan(300);
  // It ended forty days ago; what ended stays as it was, but for this.
  await sql.begin(async (tx) => {
    await tx`alter table count_sheet_bin disable trigger user`;
    await tx`update count_sheet_bin set ended_at = ended_at - interval '40 days' where sheet_id = ${sheet.id}`;
    await tx`alter table count_sheet_bin enable trigger user`;
  });
  const { body } = await lead.post('/api/count-rules/changes/check', { classes: ['C'], everyDays: 30 });
  expect(body.due.to).toBe(body.due.from + 1);
});

test('one who may not set up sets none; a rule that cannot be is refused at its field, and none is set', async () => {
  const before = await rules();
  expect((await clerk.post('/api/count-rules/changes', { classes: ['A'], everyDays: 3 })).status).toBe(403);
  const fault = async (asked: object) => {
    const { status, body } = await lead.post('/api/count-rules/changes', asked);
    return [status, body.errors?.map(({ pointer }: { pointer: string }) => pointer)];
  };
  expect(await fault({ classes: ['A', 'B'], everyDays: 0 })).toEqual([400, ['/everyDays']]);
  expect(await fault({ classes: ['A'], tolerancePercent: '51' })).toEqual([400, ['/tolerancePercent']]);
  expect(await fault({ classes: ['A'] })).toEqual([422, ['']]);
  expect(await rules()).toEqual(before);
});

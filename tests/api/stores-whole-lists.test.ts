import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { busiestPart, fillStores } from '../bench/large-stores.ts';
import { crowdStores, missedMost } from '../support/crowded-stores.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { expectBooksToAgree } from '../support/stores.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
  await takeIn(shop, { serial: 'H355-8001' });
  await fillStores(shop.sql, { parts: 5000, movements: 20_000 });
  await crowdStores(shop.sql, { gone: 5, open: 60, picks: 25, shorts: 100, missing: 900 });
}, 240_000);
afterAll(async () => {
  await expectBooksToAgree(shop.sql);
  await shop.close();
});

const read = async (path: string) => {
  const { status, body } = await shop.as.clerk.get(path);
  expect(status, JSON.stringify(body)).toBe(200);
  return body;
};
const one = async (statement: string): Promise<number> => {
  const [row] = await shop.sql.unsafe(statement);
  return Number(row?.count);
};

describe('no list of stores stops without a word', () => {
  test('the walk has every pick of every job, and one job’s alone', async () => {
    const picks = (body: { stops: { picks: unknown[] }[] }) => body.stops.flatMap((stop) => stop.picks);
    expect(picks(await read('/api/stores/pick-walk'))).toHaveLength(60 * 25);
    const [job] = await shop.sql`select id from job where number = 500010`;
    expect(picks(await read(`/api/stores/pick-walk?jobId=${job?.id}`))).toHaveLength(25);
  });

  test('everything that is short is told, in the list, in its file and in what is to be bought', async () => {
    const short = await one('select count(*) from demand_line where short > 0');
    expect(short).toBe(60 * 100);
    expect((await read('/api/stores/short')).items).toHaveLength(short);
    const file = await shop.as.clerk.get('/api/stores/short.csv');
    expect(file.body.trimEnd().split('\r\n')).toHaveLength(short + 1);
    const { vendors } = await read('/api/stores/to-buy');
    const bought = vendors.flatMap(({ lines }: { lines: { why: string; quantity: number }[] }) => lines);
    const ordered = await one(`select sum(least(pl.quantity, d.short)) as count from purchase_line pl
      join (select part_id, sum(short) as short from demand_line group by part_id) d on d.part_id = pl.part_id where pl.received < pl.quantity`);
    const uncovered = bought.filter(({ why }: { why: string }) => why === 'short');
    expect(uncovered.reduce((sum: number, { quantity }: { quantity: number }) => sum + quantity, 0)).toBe(
      short - ordered,
    );
  });

  test('the board tells how many run low and how many lines are to come beside those that it lists', async () => {
    const board = await read('/api/stores/board');
    expect([board.low.length, board.coming.length]).toEqual([200, 200]);
    expect(board.lowTotal).toBe(
      await one(`select count(*) from part p left join part_value v on v.part_id = p.id
        where p.reorder_point > 0 and coalesce(v.on_hand, 0) <= p.reorder_point`),
    );
    expect(board.lowTotal).toBeGreaterThan(200);
    expect(board.comingTotal).toBe(await one('select count(*) from purchase_line where received < quantity'));
    expect(board.comingTotal).toBeGreaterThan(200);
  });

  test('whoever takes goods in reads how many wait for them beyond the first fifty', async () => {
    const [part] = await shop.sql`select id from part where number = ${missedMost}`;
    const [bin] = await shop.sql`select id from bin where code = 'L-0001'`;
    const { status, body } = await shop.as.clerk.post('/api/receipts', {
      partId: part?.id,
      binId: bin?.id,
      quantity: 1,
    });
    expect(status, JSON.stringify(body)).toBe(201);
    expect([body.waiting.length, body.waitingTotal]).toEqual([50, 60]);
  });

  test('of one vendor every line that is to come is listed', async () => {
    const [vendor] = await shop.sql`select id, name from vendor order by name limit 1`;
    await shop.sql`insert into purchase_line (id, vendor_id, part_id, quantity, ordered_by_id)
      select gen_random_uuid(), ${vendor?.id}, p.id, 1, ${shop.people.clerk} from part p where p.number like 'LM-%' limit 600`;
    const expected = await read(`/api/stores/expected?vendorId=${vendor?.id}`);
    const { lines } = expected.vendors.find(({ id }: { id: string }) => id === vendor?.id);
    expect(expected.lines).toHaveLength(lines);
    expect(lines).toBeGreaterThan(500);
  });

  test('a part’s whole life is read page by page, each movement once', async () => {
    const [part] = await shop.sql`select id from part where number = ${busiestPart}`;
    const seen = new Set<string>();
    let next: string | null = '';
    while (next !== null) {
      const after: string = next === '' ? '' : `&after=${encodeURIComponent(next)}`;
      const { movements } = await read(`/api/parts/${part?.id}?limit=200${after}`);
      for (const { id } of movements.items) seen.add(id);
      next = movements.next;
    }
    expect(seen.size).toBe(await one(`select count(*) from stock_movement where part_id = '${part?.id}'`));
  });

  test('a search for labels says that there are more than it lists', async () => {
    const wide = await read('/api/labels?kind=part&search=LG-');
    expect([wide.items.length, wide.more]).toEqual([200, true]);
    expect((await read('/api/labels?kind=part&search=LG-000001')).more).toBe(false);
  });
});

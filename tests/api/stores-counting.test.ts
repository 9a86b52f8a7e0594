import { afterAll, describe, expect, test } from 'vitest';
import type { Client } from '../support/client.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, lotNow, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { clerk, lead, technician } = shop.as;
afterAll(shop.close);

interface Line {
  readonly id: string;
  readonly state: string;
  readonly counted: number | null;
  readonly seen: { readonly difference: number; readonly moved: boolean } | null;
  readonly part: { readonly id: string };
}

const begin = async (...binIds: readonly string[]) => {
  const { status, body } = await clerk.post('/api/count-sheets', { binIds });
  expect(status, JSON.stringify(body)).toBe(201);
  return body as { id: string; number: number; lines: readonly Line[] };
};
const key = (by: Client, sheet: { id: string }, line: { id: string } | undefined, counted: unknown) =>
  by.post(`/api/count-sheets/${sheet.id}/counts`, { lineId: line?.id, counted });
const handIn = (by: Client, sheet: { id: string }, round = 1) =>
  by.post(`/api/count-sheets/${sheet.id}/hand-in`, { round });
const decide = (
  by: Client,
  sheet: { id: string },
  of: { lineId: string | undefined; decision: string; reason?: string },
) => by.post(`/api/count-sheets/${sheet.id}/decisions`, { reason: 'seen twice', ...of });

/** A bin with one lot of so many, and a sheet begun for it. */
async function counting(quantity: number, valueMinor = 0) {
  const part = await addPart(sql);
  const bin = await addBin(sql);
  const lotId = await addLot(shop, { partId: part.id, quantity, binId: bin.id, valueMinor });
  const sheet = await begin(bin.id);
  return { part, bin, lotId, sheet, line: sheet.lines[0] };
}

describe('a blind count', () => {
  test('tells the books in no reply and no event until it was handed in', async () => {
    const { sheet, line, bin } = await counting(7341);
    const replies = [
      sheet,
      (await key(clerk, sheet, line, 12)).body,
      (await clerk.get(`/api/count-sheets/${sheet.id}`)).body,
      (await clerk.get('/api/count-sheets?open=true')).body,
      (await clerk.get('/api/count-schedule')).body,
      (await handIn(clerk, sheet)).body,
    ];
    const events = await sql`select data from event where kind like 'count.%'`;
    // Beyond tolerance: still blind, and the second counter must not see what the first one found.
    expect(JSON.stringify([replies, events])).not.toContain('7341');
    const { body: recount } = await lead.post(`/api/count-sheets/${sheet.id}/recount`, {});
    expect(recount.lines[0]).toMatchObject({ state: 'to count again', counted: null, seen: null });
    expect(JSON.stringify((await key(lead, sheet, line, 7300)).body)).not.toContain('7341');
    const { body } = await handIn(lead, sheet, 2);
    expect(body).toMatchObject({ right: 0, adjusted: 1, again: 0, toDecide: 0 });
    expect(body.sheet.lines[0].seen.counts).toMatchObject([
      { round: 1, counted: 12, books: 7341, by: 'Bea Lindqvist' },
      { round: 2, counted: 7300, books: 7341, by: 'Maren Tolk' },
    ]);
    expect(body.sheet.bins[0].code).toBe(bin.code);
  });

  test('a count that agrees settles the line and frees the bin', async () => {
    const { sheet, line, lotId, bin } = await counting(7);
    await key(clerk, sheet, line, 7);
    const { body } = await handIn(clerk, sheet);
    expect(body).toMatchObject({ right: 1, adjusted: 0, again: 0, sheet: { state: 'done' } });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 7 });
    expect(await begin(bin.id)).toMatchObject({ state: 'counting' });
  });

  test('a line keyed again before it is handed in counts as it was keyed last', async () => {
    const { sheet, line } = await counting(7);
    await key(clerk, sheet, line, 70);
    expect((await key(clerk, sheet, line, 7)).body.lines[0]).toMatchObject({ state: 'counted', counted: 7 });
    expect((await handIn(clerk, sheet)).body).toMatchObject({ right: 1 });
  });

  test('an empty bin is counted by handing its sheet in', async () => {
    const sheet = await begin((await addBin(sql)).id);
    expect((await handIn(clerk, sheet)).body.sheet.state).toBe('done');
  });
});

describe('tolerance, recount and decision', () => {
  test('within tolerance it is adjusted at once, with the reason counted', async () => {
    const rule = { class: 'C', tolerancePieces: 2, tolerancePercent: '5', everyDays: 182 };
    expect((await lead.post('/api/count-rules', rule)).status).toBe(201);
    const { sheet, line, lotId } = await counting(20, 2000);
    await key(clerk, sheet, line, 18);
    const { body } = await handIn(clerk, sheet);
    expect(body).toMatchObject({ adjusted: 1, sheet: { state: 'done' } });
    expect(body.sheet.lines[0].seen).toMatchObject({
      difference: -2,
      settled: { how: 'within tolerance', reason: 'counted', value: { minor: '-200' } },
    });
    expect(await lotNow(sql, lotId)).toEqual({ onHand: 18, reserved: 0, valueMinor: 1800 });
    await lead.post('/api/count-rules', { ...rule, tolerancePieces: 0 });
    await expectBooksToAgree(sql);
  });

  test('beyond it twice, somebody with the right decides with a reason', async () => {
    const { sheet, line, lotId } = await counting(20);
    await key(clerk, sheet, line, 14);
    expect((await handIn(clerk, sheet)).body).toMatchObject({ again: 1, sheet: { state: 'to recount' } });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 20 });
    expect((await decide(lead, sheet, { lineId: line?.id, decision: 'adjust' })).status).toBe(409);
    await lead.post(`/api/count-sheets/${sheet.id}/recount`, {});
    await key(lead, sheet, line, 15);
    expect((await handIn(lead, sheet, 2)).body).toMatchObject({ toDecide: 1, sheet: { state: 'to decide' } });
    expect((await decide(clerk, sheet, { lineId: line?.id, decision: 'adjust' })).status).toBe(403);
    expect((await decide(lead, sheet, { lineId: line?.id, decision: 'adjust', reason: ' ' })).status).toBe(400);
    const decided = await decide(lead, sheet, { lineId: line?.id, decision: 'adjust', reason: 'five unbooked' });
    expect(decided).toMatchObject({ status: 201, body: { sheet: { state: 'done' } } });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 15 });
    expect((await decide(lead, sheet, { lineId: line?.id, decision: 'adjust' })).status).toBe(409);
    await expectBooksToAgree(sql);
  });

  test('or wants a third count, which is blind again', async () => {
    const { sheet, line, lotId } = await counting(20);
    await key(clerk, sheet, line, 14);
    await handIn(clerk, sheet);
    await clerk.post(`/api/count-sheets/${sheet.id}/recount`, {});
    await key(clerk, sheet, line, 15);
    await handIn(clerk, sheet, 2);
    const again = await decide(lead, sheet, { lineId: line?.id, decision: 'count again', reason: 'twice unlike' });
    expect(again.body.sheet).toMatchObject({ state: 'to recount', lines: [{ state: 'to count again', seen: null }] });
    await clerk.post(`/api/count-sheets/${sheet.id}/recount`, {});
    await key(clerk, sheet, line, 20);
    expect((await handIn(clerk, sheet, 3)).body).toMatchObject({ right: 1, sheet: { state: 'done' } });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 20 });
  });
});

describe('what moves while a bin is counted', () => {
  const scrap = (lotId: string, quantity: number) =>
    clerk.post('/api/stock-movements', { act: 'scrap', lotId, quantity, reason: 'bent' });

  test('is no difference, before the entry or after it', async () => {
    const { sheet, line, lotId } = await counting(10);
    await scrap(lotId, 2);
    await key(clerk, sheet, line, 8);
    await scrap(lotId, 3);
    expect((await handIn(clerk, sheet)).body).toMatchObject({ right: 1 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 5 });
  });

  test('makes a difference doubtful: it is counted again, whatever the tolerance', async () => {
    await lead.post('/api/count-rules', { class: 'C', tolerancePieces: 9, tolerancePercent: '5', everyDays: 182 });
    const { sheet, line, lotId } = await counting(10);
    await key(clerk, sheet, line, 9);
    await scrap(lotId, 1);
    expect((await handIn(clerk, sheet)).body).toMatchObject({ again: 1, adjusted: 0 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 9 });
    await clerk.post(`/api/count-sheets/${sheet.id}/recount`, {});
    await key(clerk, sheet, line, 9);
    expect((await handIn(clerk, sheet, 2)).body).toMatchObject({ right: 1 });
    await lead.post('/api/count-rules', { class: 'C', tolerancePieces: 0, tolerancePercent: '5', everyDays: 182 });
  });

  test('an entry kept while the network was down is compared with the books of then', async () => {
    const { sheet, line, lotId } = await counting(10);
    const then = new Date().toISOString();
    await new Promise((resolve) => setTimeout(resolve, 20));
    await scrap(lotId, 4);
    const kept = { lineId: line?.id, counted: 10 };
    await clerk.post(`/api/count-sheets/${sheet.id}/counts`, kept, { 'happened-at': then });
    expect((await handIn(clerk, sheet)).body).toMatchObject({ right: 1 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 6 });
  });

  test('a decision that pieces gone since have overtaken is refused, and nothing is done', async () => {
    const { sheet, line, lotId } = await counting(10);
    for (const [round, counted] of [
      [1, 4],
      [2, 4],
    ] as const) {
      if (round === 2) await clerk.post(`/api/count-sheets/${sheet.id}/recount`, {});
      await key(clerk, sheet, line, counted);
      await handIn(clerk, sheet, round);
    }
    await scrap(lotId, 7);
    const refused = await decide(lead, sheet, { lineId: line?.id, decision: 'adjust' });
    expect(refused).toMatchObject({ status: 409 });
    expect(refused.body.detail).toContain('Count it again');
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 3 });
  });

  test('the ledger is not put right past a sheet', async () => {
    const { lotId, sheet } = await counting(10);
    const past = { act: 'count', lotId, counted: 9, reason: 'seen' };
    expect((await clerk.post('/api/stock-movements', past)).body.detail).toContain(`sheet ${sheet.number}`);
    const given = await clerk.post(`/api/count-sheets/${sheet.id}/give-up`, { reason: 'called away' });
    expect(given.body).toMatchObject({ state: 'given up', givenUp: { reason: 'called away' } });
    expect((await clerk.post('/api/stock-movements', past)).status).toBe(201);
  });
});

describe('what lies there beside the sheet', () => {
  const add = (sheet: { id: string }, of: object) => clerk.post(`/api/count-sheets/${sheet.id}/found`, of);

  test('is added with its lot, counted again, and taken into the books of that bin', async () => {
    const { sheet, line, bin } = await counting(3);
    const other = await addPart(sql, { priceMinor: 500 });
    await addLot(shop, { partId: other.id, quantity: 4, valueMinor: 400 });
    const added = await add(sheet, { binId: bin.id, partId: other.id, lotCode: '5512', counted: 2 });
    expect(added.status, JSON.stringify(added.body)).toBe(201);
    const found = added.body.lines.find((one: Line) => one.part.id === other.id);
    expect(found).toMatchObject({ found: true, state: 'counted', counted: 2, lotCode: '5512' });
    expect((await add(sheet, { binId: bin.id, partId: other.id, lotCode: '5512', counted: 2 })).status).toBe(409);
    await key(clerk, sheet, line, 3);
    await handIn(clerk, sheet);
    await lead.post(`/api/count-sheets/${sheet.id}/recount`, {});
    await key(lead, sheet, found, 2);
    await handIn(lead, sheet, 2);
    const { body } = await decide(lead, sheet, {
      lineId: found.id,
      decision: 'adjust',
      reason: 'put away in the wrong bin',
    });
    expect(body.sheet.state).toBe('done');
    const lots =
      await sql`select code, on_hand, bin_id from stock_lot where part_id = ${other.id} and bin_id = ${bin.id}`;
    expect(lots).toMatchObject([{ code: '5512', on_hand: 2 }]);
    await expectBooksToAgree(sql);
  });

  test('a delivery booked into the bin meanwhile is not taken for a find', async () => {
    const { sheet, line, bin } = await counting(3);
    const other = await addPart(sql);
    await add(sheet, { binId: bin.id, partId: other.id, counted: 5 });
    await clerk.post('/api/receipts', { partId: other.id, binId: bin.id, quantity: 5 });
    await key(clerk, sheet, line, 3);
    expect((await handIn(clerk, sheet)).body).toMatchObject({ right: 1, again: 1 });
    const now = (await clerk.post(`/api/count-sheets/${sheet.id}/recount`, {})).body.lines;
    await key(
      clerk,
      sheet,
      now.find((one: Line) => one.state === 'to count again'),
      5,
    );
    expect((await handIn(clerk, sheet, 2)).body).toMatchObject({ right: 1, sheet: { state: 'done' } });
    await expectBooksToAgree(sql);
  });

  test('a serial is seen or not, and is not added where the books have it elsewhere', async () => {
    const part = await addPart(sql);
    await sql`update part set by_serial = true where id = ${part.id}`;
    const [here, there] = [await addBin(sql), await addBin(sql)];
    await clerk.post('/api/receipts', { partId: part.id, binId: here.id, quantity: 1, serial: 'K-1' });
    await clerk.post('/api/receipts', { partId: part.id, binId: there.id, quantity: 1, serial: 'K-2' });
    const sheet = await begin(here.id);
    const two = await key(clerk, sheet, sheet.lines[0], 2);
    expect(two).toMatchObject({ status: 422, body: { errors: [{ pointer: '/counted' }] } });
    expect((await key(clerk, sheet, sheet.lines[0], 1)).status).toBe(201);
    const piece = { binId: here.id, partId: part.id, counted: 1 };
    expect(await add(sheet, piece)).toMatchObject({ status: 422, body: { errors: [{ pointer: '/serial' }] } });
    expect((await add(sheet, { ...piece, serial: 'K-2' })).body.detail).toContain(there.code);
    expect((await add(sheet, { ...piece, serial: 'K-3' })).status).toBe(201);
  });
});

describe('less than is reserved', () => {
  const promisedOn = async (jobId: string, readyOn: string) => {
    const { status, body } = await shop.as.writer.post(`/api/jobs/${jobId}/promises`, { readyOn, sureOf5: 4 });
    expect(status, JSON.stringify(body)).toBe(201);
  };

  test('takes back the latest promise first, in the same act, and both engines are told', async () => {
    await lead.post('/api/count-rules', { class: 'C', tolerancePieces: 9, tolerancePercent: '5', everyDays: 182 });
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 5, binId: bin.id });
    const jobs = await Promise.all(['A', 'B', 'C'].map((serial) => takeIn(shop, { serial: `CNT-${serial}` })));
    for (const [at, { jobId }] of jobs.entries()) {
      await promisedOn(jobId, `2031-0${at + 1}-01`);
      await demand(shop, jobId, [[part.id, at === 0 ? 1 : 2]]);
      await clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    }
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 5, reserved: 5 });
    const sheet = await begin(bin.id);
    await key(clerk, sheet, sheet.lines[0], 2);
    const { body } = await handIn(clerk, sheet);
    expect(
      body.shortages.map(({ job, missing }: { job: { number: number }; missing: number }) => [job.number, missing]),
    ).toEqual([
      [jobs[2]?.number, 2],
      [jobs[1]?.number, 1],
    ]);
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 2, reserved: 2 });
    expect(await standing(shop, jobs[1]?.jobId ?? '', part.id)).toMatchObject({ reserved: 1, short: 1 });
    for (const job of jobs.slice(1)) {
      const events = (await clerk.get(`/api/engines/${job.engineId}/events`)).body.items;
      expect(events[0]).toMatchObject({ kind: 'part.taken-back', data: { reason: 'counted' } });
    }
    const board = (await clerk.get('/api/stores/board')).body;
    expect(board.shortages.filter((one: { part: { id: string } }) => one.part.id === part.id)).toHaveLength(2);
    await lead.post('/api/count-rules', { class: 'C', tolerancePieces: 0, tolerancePercent: '5', everyDays: 182 });
    await expectBooksToAgree(sql);
  });

  test('scrapping below what is reserved does the same', async () => {
    const part = await addPart(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 2 });
    const { jobId, engineId } = await takeIn(shop, { serial: 'CNT-S' });
    await demand(shop, jobId, [[part.id, 2]]);
    await clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const scrap = { act: 'scrap', lotId, quantity: 1, reason: 'cracked' };
    expect((await clerk.post('/api/stock-movements', scrap)).body.shortages).toMatchObject([{ missing: 1 }]);
    expect(await standing(shop, jobId, part.id)).toMatchObject({ reserved: 1, short: 1 });
    expect((await clerk.get(`/api/engines/${engineId}/events`)).body.items[0].kind).toBe('part.taken-back');
  });
});

describe('refused, and nothing half done', () => {
  test.each([-1, 1.5, '3', 100_001, null])('a count of %s', async (counted) => {
    const { sheet, line } = await counting(3);
    const refused = await key(clerk, sheet, line, counted);
    expect(refused).toMatchObject({ status: 400, body: { errors: [{ pointer: '/counted' }] } });
    expect((await clerk.get(`/api/count-sheets/${sheet.id}`)).body.lines[0].state).toBe('to count');
  });

  test('a closed bin, an unknown one, and one that is being counted, each by its place in the request', async () => {
    const closed = await addBin(sql, true);
    const { bin, sheet } = await counting(1);
    const nowhere = '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b';
    const free = await addBin(sql);
    const refused = await clerk.post('/api/count-sheets', { binIds: [free.id, closed.id, nowhere, bin.id] });
    expect(refused.status).toBe(404);
    expect(refused.body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '/binIds/1',
      '/binIds/2',
      '/binIds/3',
    ]);
    expect(refused.body.errors[2].detail).toContain(`sheet ${sheet.number}`);
    expect((await clerk.post('/api/count-sheets', { binIds: [closed.id] })).status).toBe(422);
    expect((await clerk.post('/api/count-sheets', { binIds: [bin.id] })).status).toBe(409);
    expect((await clerk.post('/api/count-sheets', { binIds: [] })).status).toBe(400);
    expect((await clerk.post('/api/count-sheets', { binIds: [free.id] })).status).toBe(201);
  });

  test('an unknown part, a bin of another sheet, a line of another sheet, another person’s sheet', async () => {
    const [mine, other] = [await counting(3), await counting(4)];
    const found = { binId: mine.bin.id, partId: mine.sheet.id, counted: 1 };
    const path = `/api/count-sheets/${mine.sheet.id}`;
    expect(await clerk.post(`${path}/found`, found)).toMatchObject({
      status: 404,
      body: { errors: [{ pointer: '/partId' }] },
    });
    const elsewhere = { ...found, binId: other.bin.id, partId: mine.part.id };
    expect(await clerk.post(`${path}/found`, elsewhere)).toMatchObject({
      status: 422,
      body: { errors: [{ pointer: '/binId' }] },
    });
    expect(await clerk.post(`${path}/found`, { ...found, partId: mine.part.id, counted: 0 })).toMatchObject({
      status: 400,
    });
    expect(await key(clerk, mine.sheet, other.line, 3)).toMatchObject({
      status: 404,
      body: { errors: [{ pointer: '/lineId' }] },
    });
    expect((await key(lead, mine.sheet, mine.line, 3)).body.detail).toContain('Bea Lindqvist counts sheet');
    expect((await handIn(lead, mine.sheet)).status).toBe(409);
    expect((await clerk.get(path)).body.lines).toHaveLength(1);
  });

  test('a round with a line not counted, a round twice, and a settled sheet', async () => {
    const { sheet, line } = await counting(3);
    const early = await handIn(clerk, sheet);
    expect(early).toMatchObject({ status: 422, body: { errors: [{ pointer: `/lines/${line?.id}` }] } });
    await key(clerk, sheet, line, 3);
    expect((await handIn(clerk, sheet, 2)).status).toBe(409);
    expect((await handIn(clerk, sheet)).status).toBe(201);
    expect((await handIn(clerk, sheet)).status).toBe(409);
    expect((await key(clerk, sheet, line, 3)).status).toBe(409);
    expect((await clerk.post(`/api/count-sheets/${sheet.id}/recount`, {})).status).toBe(409);
    expect((await clerk.post(`/api/count-sheets/${sheet.id}/give-up`, { reason: 'late' })).status).toBe(409);
  });

  test('without the right', async () => {
    const { sheet, line, bin } = await counting(3);
    expect((await technician.post('/api/count-sheets', { binIds: [bin.id] })).status).toBe(403);
    expect((await key(technician, sheet, line, 3)).status).toBe(403);
    const rule = { class: 'A', tolerancePieces: 0, tolerancePercent: '1', everyDays: 30 };
    expect((await clerk.post('/api/count-rules', rule)).status).toBe(403);
    expect((await lead.post('/api/count-rules', { ...rule, tolerancePercent: '51' })).body.errors[0].pointer).toBe(
      '/tolerancePercent',
    );
    expect((await lead.post('/api/count-rules', { ...rule, everyDays: 0 })).body.errors[0].pointer).toBe('/everyDays');
    expect((await technician.get('/api/counts.csv')).status).toBe(403);
  });
});

describe('schedule, accuracy, file', () => {
  test('never counted bins come first, in the order of the walk; a counted one waits for its interval', async () => {
    const { sheet, line, bin } = await counting(3);
    const before = (await clerk.get('/api/count-schedule?limit=200')).body;
    expect(before.bins[0].state).toBe('never');
    await key(clerk, sheet, line, 3);
    await handIn(clerk, sheet);
    const { bins, due, classes } = (await clerk.get('/api/count-schedule?limit=200')).body;
    const now = bins.find((one: { bin: { id: string } }) => one.bin.id === bin.id);
    expect(now).toMatchObject({ state: 'later', class: 'C', everyDays: 182 });
    expect(due).toBe(before.due - 1);
    expect(classes.map((one: { class: string }) => one.class)).toEqual(['A', 'B', 'C']);
  });

  test('what is used most makes its bin A, with the computation', async () => {
    const part = await addPart(sql);
    const bin = await addBin(sql);
    await addLot(shop, { partId: part.id, quantity: 40, binId: bin.id, valueMinor: 4_000_000 });
    const { jobId } = await takeIn(shop, { serial: 'CNT-USE' });
    const lines = await demand(shop, jobId, [[part.id, 3]]);
    await clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const issued = await clerk.post(`/api/demand-lines/${lines.get(part.id)}/issue`, { quantity: 3 });
    expect(issued.status, JSON.stringify(issued.body)).toBeLessThan(300);
    const { bins, parts } = (await clerk.get('/api/count-schedule?limit=200')).body;
    expect(parts[0]).toMatchObject({
      part: { id: part.id },
      class: 'A',
      byValue: 'A',
      used: { minor: '300000' },
      before: 0,
    });
    const due = bins.find((one: { bin: { id: string } }) => one.bin.id === bin.id);
    expect(due).toMatchObject({ class: 'A', because: { id: part.id } });
    expect((await technician.get('/api/count-schedule')).body.parts[0].used).toBeNull();
  });

  test('accuracy and file hold what was settled', async () => {
    const [counted] = await sql<{ lines: number; right: number }[]>`
      select count(*)::int as lines, (count(*) filter (where difference = 0))::int as right from count_settlement`;
    const { months } = (await clerk.get('/api/count-accuracy')).body;
    expect(months.at(-1)).toMatchObject({ lines: counted?.lines, right: counted?.right });
    const rows = (await clerk.get('/api/counts.csv')).body.trim().split('\r\n');
    expect(rows[0]).toContain('sheet,bin,part');
    expect(rows).toHaveLength((counted?.lines ?? 0) + 1);
  });
});

describe('several at once', () => {
  test('two begin to count one bin: one has it, the other is told who', async () => {
    const bin = await addBin(sql);
    const answers = await Promise.all(
      [clerk, lead, clerk, lead].map((by) => by.post('/api/count-sheets', { binIds: [bin.id] })),
    );
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409, 409, 409]);
  });

  test('two hand one round in: it is settled once', async () => {
    const { sheet, line, lotId } = await counting(100);
    await key(clerk, sheet, line, 97);
    const answers = await Promise.all([1, 2, 3].map(() => handIn(clerk, sheet)));
    expect(answers.map(({ status }) => status).toSorted()).toEqual([201, 409, 409]);
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 97 });
  });

  test('counts while pieces are issued one by one end with ledger and shelf alike', async () => {
    const { sheet, line, lotId, part } = await counting(30);
    const { jobId } = await takeIn(shop, { serial: 'CNT-OUT' });
    const lines = await demand(shop, jobId, [[part.id, 10]]);
    await clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    const out = () => clerk.post(`/api/demand-lines/${lines.get(part.id)}/issue`, { quantity: 1 });
    const [answers] = await Promise.all([
      Promise.all(Array.from({ length: 10 }, out)),
      Promise.all([28, 26, 24].map((counted) => key(clerk, sheet, line, counted))),
    ]);
    expect(answers.map(({ status }) => status).every((status) => status < 300)).toBe(true);
    const [kept] = await sql<{ wrong: number }[]>`
      select count(*)::int as wrong from count_entry e join count_line l on l.id = e.line_id
      where l.sheet_id = ${sheet.id} and e.books <> (
        select sum(on_hand_change) from stock_movement m where m.lot_id = l.lot_id and m.moved_at <= e.counted_at)`;
    expect(kept).toEqual({ wrong: 0 });
    await key(clerk, sheet, line, 20);
    expect((await handIn(clerk, sheet)).body).toMatchObject({ right: 1 });
    expect(await lotNow(sql, lotId)).toMatchObject({ onHand: 20 });
  });

  test('counting below what is reserved, while others reserve, never promises more than there is', async () => {
    await lead.post('/api/count-rules', { class: 'C', tolerancePieces: 20, tolerancePercent: '5', everyDays: 182 });
    const part = await addPart(sql);
    const bin = await addBin(sql);
    const lotId = await addLot(shop, { partId: part.id, quantity: 12, binId: bin.id });
    const jobs = await Promise.all(Array.from({ length: 8 }, (_, at) => takeIn(shop, { serial: `RACE-${at}` })));
    for (const { jobId } of jobs) await demand(shop, jobId, [[part.id, 2]]);
    const ask = (jobId: string) => clerk.post(`/api/jobs/${jobId}/reservations`, { allOrNothing: false });
    for (const { jobId } of jobs.slice(0, 4)) await ask(jobId);
    const sheet = await begin(bin.id);
    await key(clerk, sheet, sheet.lines[0], 3);
    const answers = await Promise.all([handIn(clerk, sheet), ...jobs.slice(4).map(({ jobId }) => ask(jobId))]);
    expect(answers.map(({ status }) => status).every((status) => status < 300)).toBe(true);
    const now = await lotNow(sql, lotId);
    expect(now?.onHand).toBe(3);
    expect(now?.reserved).toBeLessThanOrEqual(3);
    await expectBooksToAgree(sql);
    const stands = await Promise.all(jobs.map(({ jobId }) => standing(shop, jobId, part.id)));
    expect(stands.every(({ reserved, short }) => reserved + short === 2)).toBe(true);
  });
});

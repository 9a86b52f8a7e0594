import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { makeRound } from '#features/stores/reservations/clock.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart, demand, expectBooksToAgree, none, standing } from '../support/stores.ts';

const shop = await openShop();
const { sql } = shop;
const { technician, clerk } = shop.as;
beforeAll(async () => {
  await sql`update bay set capacity = 100 where id = ${shop.bays.rack}`;
});
afterAll(shop.close);

let jobs = 0;
async function jobWanting(partId: string, quantity: number) {
  jobs += 1;
  const { jobId } = await takeIn(shop, { serial: `INSTEAD-${jobs}` });
  const lines = await demand(shop, jobId, [[partId, quantity]]);
  return { jobId, lineId: lines.get(partId) ?? '' };
}
const ask = (jobId: string, allOrNothing = true) =>
  technician.post(`/api/jobs/${jobId}/reservations`, { allOrNothing });
const replace = (partId: string, byPartId: string, oldStock = 'use up') =>
  clerk.post(`/api/parts/${partId}/supersession`, { byPartId, oldStock });
const heldOf = async (lineId: string) =>
  sql<{ number: string; quantity: number }[]>`
    select p.number, r.quantity from reservation r join stock_lot l on l.id = r.lot_id join part p on p.id = l.part_id
    where r.demand_line_id = ${lineId} and r.quantity > 0 order by p.number`;

describe('a part that was replaced', () => {
  test('is used up first, then its demand is served along the chain to its end', async () => {
    const [a, b, c] = [
      await addPart(sql, { number: 'CHAIN-A' }),
      await addPart(sql, { number: 'CHAIN-B' }),
      await addPart(sql, { number: 'CHAIN-C' }),
    ];
    // The newest part lies there longest: it is the chain that counts, not the day.
    await addLot(shop, { partId: c.id, quantity: 5, receivedAt: '2024-01-01T00:00:00Z' });
    await addLot(shop, { partId: a.id, quantity: 1, receivedAt: '2026-01-01T00:00:00Z' });
    await addLot(shop, { partId: b.id, quantity: 1, receivedAt: '2026-02-01T00:00:00Z' });
    expect((await replace(a.id, b.id)).status).toBe(200);
    const told = await replace(b.id, c.id);
    expect(told.body).toMatchObject({ chain: [{ part: { number: 'CHAIN-C' }, oldStock: 'use up', available: 5 }] });
    const { jobId, lineId } = await jobWanting(a.id, 4);
    expect((await ask(jobId)).body).toMatchObject({ complete: true });
    expect(await heldOf(lineId)).toEqual([
      { number: 'CHAIN-A', quantity: 1 },
      { number: 'CHAIN-B', quantity: 1 },
      { number: 'CHAIN-C', quantity: 2 },
    ]);
    const { body } = await clerk.get(`/api/jobs/${jobId}/demands`);
    expect(body.lines[0].held.map(({ instead }: { instead: { number: string } | null }) => instead?.number)).toEqual(
      expect.arrayContaining(['CHAIN-B', 'CHAIN-C', undefined]),
    );
    expect((await clerk.post(`/api/demand-lines/${lineId}/issue`, { quantity: 4 })).status).toBe(200);
    expect(await standing(shop, jobId, a.id)).toEqual({ ...none, issued: 4 });
    await expectBooksToAgree(sql);
  });

  test('is not fitted any more where only the new one will do, however many of the old lie there', async () => {
    const [a, b] = [await addPart(sql), await addPart(sql)];
    const old = await addLot(shop, { partId: a.id, quantity: 9 });
    await addLot(shop, { partId: b.id, quantity: 1 });
    await replace(a.id, b.id, 'new only');
    const { jobId, lineId } = await jobWanting(a.id, 2);
    await ask(jobId, false);
    expect(await heldOf(lineId)).toEqual([{ number: b.number, quantity: 1 }]);
    expect(await standing(shop, jobId, a.id)).toEqual({ ...none, reserved: 1, short: 1 });
    const chosen = await clerk.post(`/api/demand-lines/${lineId}/reserve-of-lot`, { lotId: old, quantity: 1 });
    expect(chosen.body).toMatchObject({ errors: [{ pointer: '/lotId' }] });
    expect(chosen.body.detail).toMatch(/only the new part is fitted/);
  });

  test('bars what lies before a link that only the new one will do for', async () => {
    const [a, b, c] = [await addPart(sql), await addPart(sql), await addPart(sql)];
    await replace(a.id, b.id, 'use up');
    await replace(b.id, c.id, 'new only');
    const { body } = await clerk.get(`/api/parts/${a.id}/instead`);
    expect(body.servedBy.map(({ number }: { number: string }) => number)).toEqual([c.number]);
    expect(body.chain.map(({ oldStock }: { oldStock: string }) => oldStock)).toEqual(['use up', 'new only']);
  });

  test('who waits for the old one is served by the new one as it comes in', async () => {
    const [a, b] = [await addPart(sql), await addPart(sql)];
    await replace(a.id, b.id);
    const { jobId, lineId } = await jobWanting(a.id, 1);
    await ask(jobId);
    expect(await standing(shop, jobId, a.id)).toEqual({ ...none, short: 1 });
    await addLot(shop, { partId: b.id, quantity: 1 });
    await makeRound(sql);
    expect(await heldOf(lineId)).toEqual([{ number: b.number, quantity: 1 }]);
  });

  test('taken back, the new one serves it no more; what is reserved stays', async () => {
    const [a, b] = [await addPart(sql), await addPart(sql)];
    await addLot(shop, { partId: b.id, quantity: 2 });
    await replace(a.id, b.id);
    const first = await jobWanting(a.id, 1);
    await ask(first.jobId);
    const withdrawn = await clerk.post(`/api/parts/${a.id}/supersession/withdraw`, { reason: 'the notice was wrong' });
    expect(withdrawn.body).toMatchObject({ chain: [], servedBy: [{ number: a.number }] });
    expect((await clerk.post(`/api/parts/${a.id}/supersession/withdraw`, { reason: 'again' })).body.type).toMatch(
      /already-done/,
    );
    const second = await jobWanting(a.id, 1);
    expect((await ask(second.jobId)).body).toMatchObject({ complete: false });
    expect(await heldOf(first.lineId)).toHaveLength(1);
  });

  test('circles, itself, an unknown part, another unit and who may not are refused, each at its field', async () => {
    const [a, b, c] = [await addPart(sql), await addPart(sql), await addPart(sql)];
    await sql`update part set unit = 'pair' where id = ${c.id}`;
    await replace(a.id, b.id);
    const circle = await replace(b.id, a.id);
    expect([circle.status, circle.body.detail]).toEqual([422, expect.stringMatching(/own chain/)]);
    const pointers = [
      await replace(a.id, a.id),
      await replace(a.id, '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b'),
      await replace(a.id, c.id),
      await replace(a.id, 'no id'),
    ].map(({ status, body }) => [status, body.errors?.[0]?.pointer]);
    expect(pointers).toEqual([
      [422, '/byPartId'],
      [404, '/byPartId'],
      [422, '/byPartId'],
      [400, '/byPartId'],
    ]);
    expect((await replace(a.id, b.id, 'maybe')).body.errors?.[0]?.pointer).toBe('/oldStock');
    const { status } = await technician.post(`/api/parts/${a.id}/supersession`, { byPartId: b.id, oldStock: 'use up' });
    expect(status).toBe(403);
  });

  test('of many who close a circle at once, from both ends, one is refused every time', async () => {
    const parts = [await addPart(sql), await addPart(sql), await addPart(sql)].map(({ id }) => id);
    const answers = await Promise.all(
      parts.flatMap((id, at) => [
        replace(id, parts[(at + 1) % 3] ?? ''),
        replace(id, parts[(at + 2) % 3] ?? '', 'new only'),
      ]),
    );
    expect(answers.filter(({ status }) => ![200, 422].includes(status))).toEqual([]);
    const circles = await sql`
      with recursive chain (start, id, steps) as (
        select id, superseded_by_id, 1 from part where id = any(${parts})
        union all select c.start, p.superseded_by_id, c.steps + 1 from chain c join part p on p.id = c.id where c.steps < 9)
      select from chain where id = start`;
    expect(circles).toHaveLength(0);
  });

  test('12 jobs that want old and new at once, while the link turns, are promised nothing twice', async () => {
    const [a, b] = [await addPart(sql), await addPart(sql)];
    await addLot(shop, { partId: a.id, quantity: 4 });
    await addLot(shop, { partId: b.id, quantity: 5 });
    await replace(a.id, b.id);
    const wanting = [];
    for (let at = 0; at < 12; at += 1) wanting.push(await jobWanting(at % 3 === 0 ? b.id : a.id, 1));
    const answers = await Promise.all([
      ...wanting.map(({ jobId }) => ask(jobId)),
      replace(a.id, b.id, 'use up'),
      replace(a.id, b.id, 'use up'),
    ]);
    expect(answers.map(({ status }) => status)).toEqual(Array(14).fill(200));
    for (let round = 0; round < 3; round += 1) await makeRound(sql);
    const [lots] = await sql`
      select sum(on_hand)::int as "onHand", sum(reserved)::int as reserved from stock_lot where part_id = any(${[a.id, b.id]})`;
    expect(lots).toEqual({ onHand: 9, reserved: 9 });
    await expectBooksToAgree(sql);
  });
});

describe('an alternative', () => {
  async function pair() {
    const [part, other] = [
      await addPart(sql, { name: 'Piston, standard' }),
      await addPart(sql, { name: 'Piston, +0.25' }),
    ];
    const named = await clerk.post(`/api/parts/${part.id}/alternatives`, {
      partId: other.id,
      condition: 'once the cylinder is bored',
    });
    expect(named.status, JSON.stringify(named.body)).toBe(200);
    return { part, other, named: named.body };
  }
  const choose = (lineId: string, body: object) => clerk.post(`/api/demand-lines/${lineId}/reserve-of-lot`, body);

  test('is never taken by rule, and taken by somebody only with a reason, which stays', async () => {
    const { part, other, named } = await pair();
    expect(named.alternatives).toMatchObject([
      { condition: 'once the cylinder is bored', part: { number: other.number } },
    ]);
    const lotId = await addLot(shop, { partId: other.id, quantity: 2 });
    const { jobId, lineId } = await jobWanting(part.id, 1);
    await ask(jobId);
    await makeRound(sql);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, short: 1 });
    const { body: lots } = await clerk.get(`/api/demand-lines/${lineId}/lots`);
    expect(lots.items).toMatchObject([
      { lotId, standing: 'alternative', onCondition: 'once the cylinder is bored', available: 2 },
    ]);
    const unsaid = await choose(lineId, { lotId, quantity: 1 });
    expect([unsaid.status, unsaid.body.errors?.[0]?.pointer]).toEqual([422, '/reason']);
    expect((await choose(lineId, { lotId, quantity: 1, reason: 'bored yesterday' })).status).toBe(200);
    expect(await standing(shop, jobId, part.id)).toEqual({ ...none, reserved: 1 });
    expect(
      await sql`select quantity, condition, reason, taken_by_id as by from alternative_taken where demand_line_id = ${lineId}`,
    ).toEqual([
      { quantity: 1, condition: 'once the cylinder is bored', reason: 'bored yesterday', by: shop.people.clerk },
    ]);
    const [told] = await sql`select data from event where job_id = ${jobId} and kind = 'part.chosen'`;
    expect(told?.data).toMatchObject({ instead: `Piston, +0.25 (${other.number})`, reason: 'bored yesterday' });
    await expectBooksToAgree(sql);
  });

  test('runs one way unless both are said, and ends when it is taken back', async () => {
    const { part, other } = await pair();
    const back = await clerk.get(`/api/parts/${other.id}/instead`);
    expect(back.body).toMatchObject({ alternatives: [], alternativeTo: [{ part: { number: part.number } }] });
    const lotId = await addLot(shop, { partId: part.id, quantity: 1 });
    const wrongWay = await jobWanting(other.id, 1);
    expect((await choose(wrongWay.lineId, { lotId, quantity: 1, reason: 'why not' })).body.errors).toMatchObject([
      { pointer: '/lotId' },
    ]);
    const both = { partId: other.id, condition: 'either size of the same make', bothWays: true };
    await clerk.post(`/api/parts/${part.id}/alternatives`, both);
    expect((await choose(wrongWay.lineId, { lotId, quantity: 1, reason: 'same make' })).status).toBe(200);
    const gone = await clerk.post(`/api/parts/${part.id}/alternatives/withdraw`, {
      partId: other.id,
      reason: 'too long',
    });
    expect(gone.body.alternatives).toEqual([]);
    expect(
      (await clerk.post(`/api/parts/${part.id}/alternatives/withdraw`, { partId: other.id, reason: 'x' })).body.type,
    ).toMatch(/already-done/);
  });

  test('itself, an unknown part, no condition and who may not are refused, each at its field', async () => {
    const part = await addPart(sql);
    const name = (body: object, by = clerk) => by.post(`/api/parts/${part.id}/alternatives`, body);
    const answers = [
      await name({ partId: part.id, condition: 'always' }),
      await name({ partId: '019a2b3c-4d5e-7f60-8a9b-0c1d2e3f4a5b', condition: 'always' }),
      await name({ partId: part.id, condition: ' ' }),
      await name({ partId: part.id, condition: 'two\nlines' }),
    ].map(({ status, body }) => [status, body.errors?.[0]?.pointer]);
    expect(answers).toEqual([
      [422, '/partId'],
      [404, '/partId'],
      [400, '/condition'],
      [400, '/condition'],
    ]);
    expect((await name({ partId: part.id, condition: 'always' }, technician)).status).toBe(403);
  });

  test('of ten who take the last piece of it at once one gets it', async () => {
    const { part, other } = await pair();
    const lotId = await addLot(shop, { partId: other.id, quantity: 1 });
    const lines = [];
    for (let at = 0; at < 10; at += 1) lines.push((await jobWanting(part.id, 1)).lineId);
    const answers = await Promise.all(lines.map((id) => choose(id, { lotId, quantity: 1, reason: 'bored' })));
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(1);
    expect(answers.filter(({ status }) => ![200, 409].includes(status))).toEqual([]);
    const taken = await sql`select from alternative_taken where lot_id = ${lotId}`;
    expect(taken).toHaveLength(1);
    await expectBooksToAgree(sql);
  });

  test('the database itself lets nothing of an unnamed part be promised', async () => {
    const [part, other] = [await addPart(sql), await addPart(sql)];
    const lotId = await addLot(shop, { partId: other.id, quantity: 1, binId: (await addBin(sql)).id });
    const { lineId } = await jobWanting(part.id, 1);
    await expect(
      sql`insert into reservation (id, demand_line_id, lot_id, quantity) values (gen_random_uuid(), ${lineId}, ${lotId}, 1)`,
    ).rejects.toThrow(/another part/);
  });
});

describe('a file of parts', () => {
  const bring = (text: string) => clerk.post('/api/parts/import', text);
  const faultsOf = async (text: string) => {
    const { status, body } = await bring(text);
    expect(status, JSON.stringify(body)).toBe(422);
    return body.errors.map(({ pointer }: { pointer: string }) => pointer);
  };
  const rowOf = async (number: string) => {
    const { body } = await clerk.get('/api/parts.csv');
    return body.split('\r\n').find((line: string) => line.startsWith(`${number},`));
  };

  test('knows an alternative whose number has a colon in it', async () => {
    const other = await addPart(sql, { number: 'CSV:9' });
    expect((await bring('number,name,alternatives\r\nCSV-8,Guide,CSV:9: any time\r\n')).status).toBe(201);
    expect(await rowOf('CSV-8')).toContain(`${other.number}: any time`);
  });

  test('names what replaces a part and its alternatives, and says the same when it is written again', async () => {
    const text = [
      'number,name,superseded_by,old_stock,alternatives',
      'CSV-1,Tensioner,CSV-2,new only,"CSV-3: with the long guide\nCSV-4: any time"',
      'CSV-2,Tensioner second,,,',
      'CSV-3,Tensioner long,,,',
      'CSV-4,Tensioner other,,,',
    ].join('\r\n');
    expect((await bring(text)).body).toEqual({ added: 4, changed: 0, unchanged: 0 });
    const [part] = await sql<{ id: string }[]>`select id from part where number = 'CSV-1'`;
    const { body } = await clerk.get(`/api/parts/${part?.id}/instead`);
    expect(body).toMatchObject({
      chain: [{ part: { number: 'CSV-2' }, oldStock: 'new only' }],
      alternatives: [
        { part: { number: 'CSV-3' }, condition: 'with the long guide' },
        { part: { number: 'CSV-4' }, condition: 'any time' },
      ],
    });
    const file = (await clerk.get('/api/parts.csv')).body;
    expect(file).toContain('CSV-2,new only,"CSV-3: with the long guide\nCSV-4: any time"');
    const before = await sql`select count(*)::int as rows from part_alternative`;
    expect((await bring(file)).body.added).toBe(0);
    expect((await clerk.get('/api/parts.csv')).body).toBe(file);
    expect(await sql`select count(*)::int as rows from part_alternative`).toEqual(before);
  });

  test('takes back with a dash, leaves alone what is empty, and may turn a chain round', async () => {
    await bring('number,name,alternatives\nCSV-1,Tensioner,\n');
    expect(await rowOf('CSV-1')).toContain('CSV-2,new only');
    await bring('number,name,superseded_by,alternatives\nCSV-1,Tensioner,-,-\nCSV-2,Tensioner second,CSV-1,\n');
    expect(await rowOf('CSV-1')).toMatch(/,,,$/);
    expect(await rowOf('CSV-2')).toMatch(/,CSV-1,use up,$/);
  });

  test('with a circle, an unknown part, itself or a wrong word names each row and column and keeps nothing', async () => {
    const before = (await clerk.get('/api/parts.csv')).body;
    const head = 'number,name,superseded_by,old_stock,alternatives\n';
    expect(await faultsOf(`${head}CSV-1,T,CSV-2,,\n`)).toEqual(['row 2, column superseded_by']);
    expect(await faultsOf(`${head}CSV-3,T,CSV-4,,\nCSV-4,T,CSV-3,,\n`)).toEqual([
      'row 2, column superseded_by',
      'row 3, column superseded_by',
    ]);
    expect(
      await faultsOf(`${head}CSV-3,T,NONE,maybe,\nCSV-4,T,csv-4,,NONE: x\nCSV-2,T,,,without words\nCSV-1,T,,use up,\n`),
    ).toEqual([
      'row 2, column old_stock',
      'row 2, column superseded_by',
      'row 3, column superseded_by',
      'row 3, column alternatives',
      'row 4, column alternatives',
      'row 5, column old_stock',
    ]);
    expect((await clerk.get('/api/parts.csv')).body).toBe(before);
  });
});

import fc from 'fast-check';
import { afterAll, describe, expect, test } from 'vitest';
import { newId } from '#platform/act.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);

const { writer, technician, lead } = shop.as;
const euros = (minor: number | string) => ({ minor: String(minor), currency: 'EUR' });
const line = (minor: number | string, quantity = 1) => ({
  kind: 'labour',
  words: 'Bench hours',
  quantity,
  each: euros(minor),
});
let serial = 0;
const newJob = () => {
  serial += 1;
  return takeIn(shop, { serial: `C-${serial}` });
};
const quoted = async (minor: number) => {
  const { jobId, engineId } = await newJob();
  const { status, body } = await writer.post(`/api/jobs/${jobId}/quotes`, { lines: [line(minor)] });
  expect(status).toBe(201);
  return { jobId, engineId, quoteId: body.id as string };
};
const yes = (minor: number) => ({ yes: true, sum: euros(minor), saidBy: 'Ingrid Falk', how: 'by telephone' });

describe('a promise', () => {
  test('is kept beside the earlier ones, and the newest comes first', async () => {
    const { jobId } = await newJob();
    const first = await writer.post(`/api/jobs/${jobId}/promises`, { readyOn: '2099-12-04', sureOf5: 4 });
    expect(first.status).toBe(201);
    expect(first.body.madeBy.name).toBe('Idris Fenwick');
    await writer.post(`/api/jobs/${jobId}/promises`, { readyOn: '2099-12-11', sureOf5: 5, note: 'cylinder late' });
    const { body } = await technician.get(`/api/jobs/${jobId}/promises`);
    expect(body.items.map((promise: { readyOn: string }) => promise.readyOn)).toEqual(['2099-12-11', '2099-12-04']);
  });

  test('of a day that is past is refused', async () => {
    const { jobId } = await newJob();
    const { status, body } = await writer.post(`/api/jobs/${jobId}/promises`, { readyOn: '2020-01-01', sureOf5: 5 });
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('/readyOn');
  });

  test('is the counter’s to make, not a technician’s', async () => {
    const { jobId } = await newJob();
    const { status } = await technician.post(`/api/jobs/${jobId}/promises`, { readyOn: '2099-12-04', sureOf5: 4 });
    expect(status).toBe(403);
  });

  test('for an unknown job is refused', async () => {
    const { status } = await writer.post(`/api/jobs/${newId()}/promises`, { readyOn: '2099-12-04', sureOf5: 4 });
    expect(status).toBe(404);
  });
});

describe('a quote', () => {
  test('sums exactly, whatever its lines', async () => {
    const { jobId } = await newJob();
    const lines = fc.array(
      fc.record({ minor: fc.bigInt(0n, 9_000_000_000n), quantity: fc.integer({ min: 1, max: 500 }) }),
      {
        minLength: 1,
        maxLength: 12,
      },
    );
    await fc.assert(
      fc.asyncProperty(lines, async (asked) => {
        const { status, body } = await writer.post(`/api/jobs/${jobId}/quotes`, {
          lines: asked.map(({ minor, quantity }) => line(minor.toString(), quantity)),
        });
        expect(status).toBe(201);
        const sum = asked.reduce((total, { minor, quantity }) => total + minor * BigInt(quantity), 0n);
        expect(body.total).toEqual(euros(sum.toString()));
        const [kept] = await shop.sql`
          select q.total_minor::text as total, (select sum(l.amount_minor)::text from quote_line l where l.quote_id = q.id) as lines
          from quote q where q.id = ${body.id}`;
        expect(kept).toEqual({ total: sum.toString(), lines: sum.toString() });
      }),
      { numRuns: 25 },
    );
  });

  test('in another currency than the shop’s is refused and leaves nothing', async () => {
    const { jobId } = await newJob();
    const lines = [{ ...line(100), each: { minor: '100', currency: 'USD' } }];
    const { status, body } = await writer.post(`/api/jobs/${jobId}/quotes`, { lines });
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('/lines/0/each/currency');
    expect((await writer.get(`/api/jobs/${jobId}/quotes`)).body.items).toEqual([]);
  });

  test('beyond what can be kept exactly is refused', async () => {
    const { jobId } = await newJob();
    const { status } = await writer.post(`/api/jobs/${jobId}/quotes`, { lines: [line('900000000000000', 10_000)] });
    expect(status).toBe(422);
  });

  test('with a price below nothing is refused', async () => {
    const { jobId } = await newJob();
    const { status, body } = await writer.post(`/api/jobs/${jobId}/quotes`, { lines: [line(100), line(-5)] });
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('/lines/1/each');
  });

  test('for another job’s obligation is refused', async () => {
    const { jobId } = await newJob();
    const other = await newJob();
    const obligationId = newId();
    await shop.sql`
      insert into obligation (id, engine_id, job_id, words, inside, raised_by_id)
      values (${obligationId}, ${other.engineId}, ${other.jobId}, 'Decide on the bore', true, ${shop.people.lead})`;
    const { status, body } = await writer.post(`/api/jobs/${jobId}/quotes`, { lines: [{ ...line(1), obligationId }] });
    expect(status).toBe(422);
    expect(body.errors[0].pointer).toBe('/lines/0/obligationId');
  });

  test('is neither sent nor read by a technician', async () => {
    const { jobId } = await quoted(500);
    expect((await technician.get(`/api/jobs/${jobId}/quotes`)).status).toBe(403);
    expect((await technician.get(`/api/jobs/${jobId}/quote-draft`)).status).toBe(403);
    expect((await technician.post(`/api/jobs/${jobId}/quotes`, { lines: [line(1)] })).status).toBe(403);
  });

  test('tells the timeline no sum', async () => {
    const { jobId, quoteId } = await quoted(987_654);
    await writer.post(`/api/quotes/${quoteId}/answer`, yes(987_654));
    const events = await shop.sql`select data::text as data from event where job_id = ${jobId} and kind like 'quote.%'`;
    expect(events).toHaveLength(2);
    for (const { data } of events) expect(data).not.toContain('987');
  });

  test('sent twice with one key is one quote', async () => {
    const { jobId } = await newJob();
    const key = { 'idempotency-key': crypto.randomUUID() };
    const first = await writer.post(`/api/jobs/${jobId}/quotes`, { lines: [line(100)] }, key);
    const second = await writer.post(`/api/jobs/${jobId}/quotes`, { lines: [line(100)] }, key);
    expect(second.body).toEqual(first.body);
    expect((await writer.get(`/api/jobs/${jobId}/quotes`)).body.items).toHaveLength(1);
  });
});

describe('an answer', () => {
  test('of yes to the whole sum stands beside the quote', async () => {
    const { jobId, quoteId } = await quoted(12_345);
    expect((await writer.post(`/api/quotes/${quoteId}/answer`, yes(12_345))).status).toBe(200);
    const [quote] = (await lead.get(`/api/jobs/${jobId}/quotes`)).body.items;
    expect(quote.total).toEqual(euros(12_345));
    expect(quote.answer).toMatchObject({ yes: true, sum: euros(12_345), saidBy: 'Ingrid Falk', how: 'by telephone' });
  });

  test('given a second time is refused, and the first stands', async () => {
    const { jobId, quoteId } = await quoted(100);
    await writer.post(`/api/quotes/${quoteId}/answer`, yes(100));
    const no = { yes: false, saidBy: 'Somebody else', how: 'in writing' };
    const { status, body } = await writer.post(`/api/quotes/${quoteId}/answer`, no);
    expect(status).toBe(409);
    expect(body.type).toBe('urn:crosshatch:problem:already-done');
    expect((await writer.get(`/api/jobs/${jobId}/quotes`)).body.items[0].answer.yes).toBe(true);
  });

  test('two at once: one is taken, the other refused', async () => {
    const { quoteId } = await quoted(100);
    const answers = await Promise.all([
      writer.post(`/api/quotes/${quoteId}/answer`, yes(100)),
      lead.post(`/api/quotes/${quoteId}/answer`, yes(100)),
    ]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
  });

  test('of yes to less needs a note', async () => {
    const { quoteId } = await quoted(100);
    const bare = await writer.post(`/api/quotes/${quoteId}/answer`, yes(80));
    expect(bare.status).toBe(422);
    expect(bare.body.errors[0].pointer).toBe('/note');
    const noted = await writer.post(`/api/quotes/${quoteId}/answer`, { ...yes(80), note: 'keeps the old chain' });
    expect(noted.status).toBe(200);
  });

  test('of yes to more than was quoted is refused, and so is a yes to no sum', async () => {
    const { quoteId } = await quoted(100);
    expect((await writer.post(`/api/quotes/${quoteId}/answer`, { ...yes(101), note: 'tip' })).status).toBe(422);
    const { sum: _, ...withoutSum } = yes(100);
    expect((await writer.post(`/api/quotes/${quoteId}/answer`, withoutSum)).status).toBe(422);
  });

  test('to a quote that was replaced is refused', async () => {
    const { jobId, quoteId } = await quoted(100);
    await writer.post(`/api/jobs/${jobId}/quotes`, { lines: [line(200)] });
    const { status, body } = await writer.post(`/api/quotes/${quoteId}/answer`, yes(100));
    expect(status).toBe(409);
    expect(body.detail).toContain('Quote 2 has replaced quote 1');
  });

  test('is not a technician’s to take', async () => {
    const { quoteId } = await quoted(100);
    expect((await technician.post(`/api/quotes/${quoteId}/answer`, yes(100))).status).toBe(403);
  });
});

test('a draft holds demanded parts at their price, decided work, and names what is undecided', async () => {
  const { jobId, engineId } = await newJob();
  const { sql, people } = shop;
  const partId = newId();
  const [decided, undecided, disposition] = [newId(), newId(), newId()];
  await sql`insert into part (id, number, name, price_minor) values (${partId}, 'P-1', 'Piston kit', 21400)`;
  await sql`
    insert into demand_line (id, job_id, part_id, wanted, not_asked, cancelled, added_by_id)
    values (${newId()}, ${jobId}, ${partId}, 3, 2, 1, ${people.clerk})`;
  for (const [id, words] of [
    [decided, 'oil pump: it whines: at idle'],
    [undecided, 'pin undecided'],
  ] as const) {
    await sql`
      insert into obligation (id, engine_id, job_id, words, inside, raised_by_id)
      values (${id}, ${engineId}, ${jobId}, ${words}, true, ${people.lead})`;
  }
  await sql`insert into disposition (id, job_id, kind, decided_by_id) values (${disposition}, ${jobId}, 'replate', ${people.lead})`;
  await sql`
    insert into obligation_act (id, obligation_id, act, disposition_id, acted_by_id)
    values (${newId()}, ${decided}, 'decided', ${disposition}, ${people.lead})`;
  const { body } = await writer.get(`/api/jobs/${jobId}/quote-draft`);
  expect(body.lines).toMatchObject([
    { kind: 'part', words: 'Piston kit', quantity: 2, each: euros(21_400), priced: true, partId },
    { kind: 'outside work', words: 'replate: oil pump: it whines: at idle', priced: false, obligationId: decided },
  ]);
  expect(body.total).toEqual(euros(42_800));
  expect(body.undecided).toEqual([{ id: undecided, words: 'pin undecided' }]);
});

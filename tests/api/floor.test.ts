import { afterAll, describe, expect, test } from 'vitest';
import type { Floor, Wait } from '#contracts/floor.ts';
import { newId } from '#platform/act.ts';
import { cover, decide, judge, oblige, open, order, runShort } from '../support/facts.ts';
import { openShop, takeIn } from '../support/shop.ts';

const shop = await openShop();
afterAll(shop.close);
const { sql, people, bays } = shop;
const { writer, technician, lead } = shop.as;

const floor = async (): Promise<Floor> => {
  const { status, body } = await technician.get('/api/floor');
  expect(status).toBe(200);
  return body;
};
const standing = async (engineId: string) => (await floor()).engines.find(({ id }) => id === engineId);
const waits = async (engineId: string): Promise<readonly Wait[]> => (await standing(engineId))?.waits ?? [];
let serial = 0;
const newEngine = (bay?: 'strip' | 'rack') => {
  serial += 1;
  return takeIn(shop, { serial: `F-${serial}`, ...(bay === undefined ? {} : { bay }) });
};

describe('after each act the floor shows it', () => {
  test('an engine taken in stands in its bay, held by the bay, and is counted', async () => {
    const before = (await floor()).counts.engines;
    const engine = await newEngine('strip');
    const after = await floor();
    expect(after.counts).toMatchObject({ engines: before + 1, heldByNobody: 0 });
    expect(after.bays.find(({ id }) => id === bays.strip)?.engineIds).toEqual([engine.engineId]);
    expect(await standing(engine.engineId)).toMatchObject({
      family: { name: 'Halden 355', cycle: 'four-stroke', bore: { value: '88.0', unit: 'mm' } },
      job: { number: engine.number },
      holder: { kind: 'bay', name: 'Bay 1' },
      place: { name: 'Bay 1' },
      opening: null,
    });
  });

  test('an assigned bay is a plan, and a wait only while that bay is full', async () => {
    const engine = await newEngine();
    await writer.post(`/api/jobs/${engine.jobId}/assigned-bay`, { bayId: bays.measuring });
    expect(await standing(engine.engineId)).toMatchObject({ assignedBay: { name: 'Bay 2' }, place: { name: 'Rack' } });
    expect(await waits(engine.engineId)).toEqual([]);
    await writer.post(`/api/jobs/${engine.jobId}/assigned-bay`, { bayId: bays.strip });
    expect(await waits(engine.engineId)).toMatchObject([
      { waitsFor: 'bay', endedBy: { kind: 'bay', id: bays.strip, name: 'Bay 1' } },
    ]);
  });

  test('a promise, and the note of it at the counter', async () => {
    const engine = await newEngine();
    await writer.post(`/api/jobs/${engine.jobId}/promises`, { readyOn: '2099-01-05', sureOf5: 2 });
    await writer.post(`/api/jobs/${engine.jobId}/promises`, { readyOn: '2099-01-07', sureOf5: 4 });
    expect((await standing(engine.engineId))?.promise).toEqual({ readyOn: '2099-01-07', sureOf5: 4 });
    const notes = (await floor()).notes.filter(({ jobId }) => jobId === engine.jobId);
    expect(notes).toMatchObject([{ kind: 'promise', on: '2099-01-07', waits: 0 }]);
  });

  test('an opening with its depth, covered and uncovered', async () => {
    const engine = await newEngine();
    const openingId = await open(shop, engine);
    expect((await standing(engine.engineId))?.opening).toMatchObject({ depth: 'head', covered: false });
    const { uncovered } = (await floor()).counts;
    await cover(shop, openingId, true);
    expect((await standing(engine.engineId))?.opening?.covered).toBe(true);
    expect((await floor()).counts.uncovered).toBe(uncovered - 1);
    await sql`update opening set closed_at = clock_timestamp(), closed_by_id = ${people.technician} where id = ${openingId}`;
    expect((await standing(engine.engineId))?.opening).toBeNull();
  });

  test('an engine at a vendor is outside and in no bay', async () => {
    const { engineId } = await newEngine();
    await sql.begin(async (transaction) => {
      const [ended] = await transaction<{ at: string }[]>`
        update custody set until_at = clock_timestamp() where engine_id = ${engineId} and until_at is null returning until_at as at`;
      await transaction`
        insert into custody (id, engine_id, vendor_id, from_at, moved_by_id)
        values (${newId()}, ${engineId}, ${shop.vendorId}, ${ended?.at ?? ''}::timestamptz, ${people.writer})`;
    });
    const now = await floor();
    expect(now.outside).toEqual([engineId]);
    expect(now.counts.outside).toBe(1);
    expect(now.bays.flatMap(({ engineIds }) => engineIds)).not.toContain(engineId);
    expect(await standing(engineId)).toMatchObject({
      holder: { kind: 'vendor', name: 'Saltmere Plating' },
      place: null,
    });
  });

  test('an engine whose books name no holder is counted as held by nobody', async () => {
    const { engineId } = await newEngine();
    await sql.begin(async (transaction) => {
      await transaction`alter table custody disable trigger user`;
      await transaction`delete from custody where engine_id = ${engineId}`;
      await transaction`alter table custody enable trigger user`;
    });
    expect((await floor()).heldByNobody).toEqual([engineId]);
    expect((await floor()).counts.heldByNobody).toBe(1);
    await sql`
      insert into custody (id, engine_id, rest_bay_id, place_id, from_at, moved_by_id)
      values (${newId()}, ${engineId}, ${bays.rack}, ${bays.rack}, clock_timestamp(), ${people.lead})`;
    expect((await floor()).counts.heldByNobody).toBe(0);
  });

  test('a job handed back is gone from it', async () => {
    const { jobId, engineId } = await newEngine();
    await sql`update job set handed_back_at = clock_timestamp(), handed_back_by_id = ${people.writer} where id = ${jobId}`;
    expect(await standing(engineId)).toBeUndefined();
  });
});

describe('a wait appears with its fact and goes with it', () => {
  test('a yes: from the quote until the answer', async () => {
    const { jobId, engineId } = await newEngine();
    const { body: quote } = await writer.post(`/api/jobs/${jobId}/quotes`, {
      lines: [{ kind: 'labour', words: 'Bench', quantity: 1, each: { minor: '100', currency: 'EUR' } }],
    });
    const before = await waits(engineId);
    expect(before).toMatchObject([{ waitsFor: 'yes', endedBy: { kind: 'owner', name: 'Ingrid Falk' }, dueOn: null }]);
    expect(JSON.stringify(before)).not.toContain('EUR');
    await writer.post(`/api/quotes/${quote.id}/answer`, { yes: false, saidBy: 'Ingrid Falk', how: 'in writing' });
    expect(await waits(engineId)).toEqual([]);
  });

  test('parts: due when enough of them are promised, not with the first few', async () => {
    const { jobId, engineId } = await newEngine();
    const { partId, demandLineId } = await runShort(shop, jobId, { part: 'Valve-stem seal', short: 4, wanted: 8 });
    expect(await waits(engineId)).toMatchObject([
      { waitsFor: 'parts', words: '4 × Valve-stem seal', dueOn: null, endedBy: { kind: 'right', right: 'stores' } },
    ]);
    await order(shop, { partId, quantity: 3, promisedOn: '2098-03-01' });
    expect(await waits(engineId)).toMatchObject([{ dueOn: null }]);
    await order(shop, { partId, quantity: 3, promisedOn: null });
    expect(await waits(engineId)).toMatchObject([{ dueOn: null }]);
    await order(shop, { partId, quantity: 1, promisedOn: '2098-03-09', jobId });
    expect(await waits(engineId)).toMatchObject([{ dueOn: '2098-03-09' }]);
    await sql`update demand_line set short = 0, reserved = 4, short_since = null where id = ${demandLineId}`;
    expect(await waits(engineId)).toEqual([]);
  });

  test('parts on order for another job are no comfort, but what it leaves over is', async () => {
    const [mine, other] = [await newEngine(), await newEngine()];
    const { partId } = await runShort(shop, other.jobId, { part: 'Cam chain', short: 1, wanted: 1 });
    await sql`
      insert into demand_line (id, job_id, part_id, wanted, short, not_asked, short_since, added_by_id)
      values (${newId()}, ${mine.jobId}, ${partId}, 1, 1, 0, clock_timestamp(), ${people.clerk})`;
    await order(shop, { partId, quantity: 1, promisedOn: '2098-03-01', jobId: other.jobId });
    expect(await waits(mine.engineId)).toMatchObject([{ waitsFor: 'parts', dueOn: null }]);
    await order(shop, { partId, quantity: 5, promisedOn: '2098-03-09', jobId: other.jobId });
    expect(await waits(mine.engineId)).toMatchObject([{ waitsFor: 'parts', dueOn: '2098-03-09' }]);
  });

  test('a decision: from the obligation until somebody decides', async () => {
    const engine = await newEngine();
    const findingId = await judge(shop, engine, { dimension: 'bore', verdict: 'undecided', value: 88.048 });
    const obligationId = await oblige(shop, engine, findingId, 'Decide on the bore');
    expect(await waits(engine.engineId)).toMatchObject([
      { waitsFor: 'decision', words: 'Decide on the bore', endedBy: { kind: 'right', right: 'decide' } },
    ]);
    await decide(shop, engine.jobId, obligationId, 'hone');
    expect(await waits(engine.engineId)).toEqual([]);
  });

  test('outside: from the sending until it is back, due when the vendor says', async () => {
    const { jobId, engineId } = await newEngine();
    const id = newId();
    await sql`
      insert into outside_work (id, job_id, engine_id, vendor_id, work, due_on, sent_by_id)
      values (${id}, ${jobId}, ${engineId}, ${shop.vendorId}, 'Replate the cylinder', '2098-02-01', ${people.writer})`;
    expect(await waits(engineId)).toMatchObject([
      {
        waitsFor: 'outside',
        words: 'Replate the cylinder',
        dueOn: '2098-02-01',
        endedBy: { name: 'Saltmere Plating' },
      },
    ]);
    expect((await floor()).notes).toContainEqual(
      expect.objectContaining({ kind: 'return', on: '2098-02-01', words: 'Replate the cylinder' }),
    );
    await sql`update outside_work set back_at = clock_timestamp(), back_by_id = ${people.writer} where id = ${id}`;
    expect(await waits(engineId)).toEqual([]);
  });

  test('a person: from the offer of a handover until it ends', async () => {
    const { jobId, engineId } = await newEngine();
    const id = newId();
    await sql`
      insert into handover (id, job_id, engine_id, giver_id, receiver_id, place_id)
      values (${id}, ${jobId}, ${engineId}, ${people.technician}, ${people.colleague}, ${bays.rack})`;
    const offered = await standing(engineId);
    expect(offered?.waits).toMatchObject([{ waitsFor: 'person', endedBy: { kind: 'person', name: 'Oskar Pell' } }]);
    expect(offered?.handovers).toMatchObject([{ id, giver: { name: 'Nadia Quill' }, ofTheEngine: true }]);
    expect((await floor()).counts.handoversOffered).toBe(1);
    await sql`update handover set outcome = 'declined', ended_at = clock_timestamp(), ended_by_id = ${people.colleague} where id = ${id}`;
    expect((await standing(engineId))?.waits).toEqual([]);
    expect((await floor()).counts.handoversOffered).toBe(0);
  });

  test('a person: from a passed proof until it is signed off; a failed one waits for nobody', async () => {
    const { jobId, engineId } = await newEngine();
    const [passed, failed] = [newId(), newId()];
    await sql`
      insert into proof (id, job_id, proof_code, name, passed, proved_by_id)
      values (${failed}, ${jobId}, 'leak-down', 'Leak-down', false, ${people.technician}),
             (${passed}, ${jobId}, 'leak-down', 'Leak-down', true, ${people.technician})`;
    expect(await waits(engineId)).toMatchObject([
      { waitsFor: 'person', words: 'Leak-down', cause: { kind: 'proof', id: passed } },
    ]);
    await sql`insert into sign_off (id, job_id, proof_id, signed_by_id) values (${newId()}, ${jobId}, ${passed}, ${people.lead})`;
    expect(await waits(engineId)).toEqual([]);
  });
});

describe('the three lists', () => {
  test('open now: the longest open first', async () => {
    const [shorter, longer] = [await newEngine(), await newEngine()];
    await open(shop, shorter, 30);
    await open(shop, longer, 90);
    const ids = (await floor()).openNow.map(({ engineId }) => engineId);
    expect(ids.indexOf(longer.engineId)).toBeLessThan(ids.indexOf(shorter.engineId));
    expect((await floor()).counts.open).toBe(ids.length);
  });

  test('waiting for parts: which, how many of how many, until when', async () => {
    const { jobId, engineId } = await newEngine();
    const { partId } = await runShort(shop, jobId, { part: 'Crank bearing set', short: 1, wanted: 2 });
    const mine = async () => (await floor()).waitingForParts.filter((wait) => wait.engineId === engineId);
    expect(await mine()).toMatchObject([{ part: { name: 'Crank bearing set' }, short: 1, wanted: 2, dueOn: null }]);
    await order(shop, { partId, quantity: 1, promisedOn: '2098-04-01' });
    expect(await mine()).toMatchObject([{ dueOn: '2098-04-01' }]);
    expect((await floor()).notes).toContainEqual(
      expect.objectContaining({ kind: 'delivery', words: 'Crank bearing set', quantity: 1, on: '2098-04-01' }),
    );
  });

  const listed = async (engineId: string) =>
    (await floor()).pastOrUndecided.filter((finding) => finding.engineId === engineId);

  test('past the limit or undecided: by how much, value ± guard, limit', async () => {
    const engine = await newEngine();
    await judge(shop, engine, { dimension: 'bore', verdict: 'undecided', value: 88.048, margin: 0.002, limit: 88.05 });
    await judge(shop, engine, {
      dimension: 'clearance',
      verdict: 'past the limit',
      type: 'span',
      value: 0.089,
      high: 0.132,
      margin: -0.012,
      limit: 0.12,
    });
    await judge(shop, engine, { dimension: 'big-end-play', verdict: 'past the limit', type: 'felt', value: 1 });
    await judge(shop, engine, { dimension: 'piston', verdict: 'within standard', value: 87.96 });
    const byDimension = Object.fromEntries((await listed(engine.engineId)).map((item) => [item.dimension, item]));
    expect(Object.keys(byDimension).sort()).toEqual(['big-end-play', 'bore', 'clearance']);
    expect(byDimension.bore).toMatchObject({
      verdict: 'undecided',
      value: { type: 'point', value: { value: '88.048', unit: 'mm' } },
      guard: { value: '0.003', unit: 'mm' },
      limit: { side: 'upper', value: { value: '88.050', unit: 'mm' } },
      pastBy: null,
    });
    expect(byDimension.clearance).toMatchObject({
      value: { type: 'span', interval: { low: '0.089', high: '0.132', unit: 'mm' } },
      pastBy: { value: '0.012', unit: 'mm' },
    });
    expect(byDimension['big-end-play']).toMatchObject({ value: { type: 'felt', present: true }, pastBy: null });
  });

  test('a dimension leaves the list when a later round is good, or a finding takes its place', async () => {
    const engine = await newEngine();
    const past = await judge(shop, engine, { dimension: 'bore', verdict: 'past the limit', value: 88.06 });
    expect(await listed(engine.engineId)).toHaveLength(1);
    await judge(shop, engine, { dimension: 'bore', verdict: 'within service limit', value: 88.03, supersedesId: past });
    expect(await listed(engine.engineId)).toEqual([]);
    await judge(shop, engine, { dimension: 'taper', verdict: 'past the limit', value: 0.04 });
    await judge(shop, engine, { dimension: 'taper', verdict: 'within standard', value: 0.004, round: 'after work' });
    expect(await listed(engine.engineId)).toEqual([]);
  });

  test('a part that is out of the engine is no longer past its limit', async () => {
    const engine = await newEngine();
    const [part] = await sql<{ id: string }[]>`
      select id from fitted_part where engine_id = ${engine.engineId} and place_code = 'piston'`;
    await judge(shop, engine, {
      dimension: 'piston',
      verdict: 'past the limit',
      value: 87.9,
      fittedPartId: part?.id ?? null,
    });
    expect(await listed(engine.engineId)).toHaveLength(1);
    await sql`update fitted_part set removed_at = clock_timestamp(), removed_job_id = ${engine.jobId} where id = ${part?.id ?? null}`;
    expect(await listed(engine.engineId)).toEqual([]);
  });

  test('what was decided stays listed, and says so', async () => {
    const engine = await newEngine();
    const findingId = await judge(shop, engine, { dimension: 'bore', verdict: 'undecided', value: 88.048 });
    const obligationId = await oblige(shop, engine, findingId, 'Decide on the bore');
    expect(await listed(engine.engineId)).toMatchObject([
      { obligation: { id: obligationId, decided: false, settled: false } },
    ]);
    await decide(shop, engine.jobId, obligationId, 'reuse');
    expect(await listed(engine.engineId)).toMatchObject([{ obligation: { decided: true, settled: false } }]);
  });
});

test('the floor is for whoever is signed in', async () => {
  expect((await shop.app.inject({ url: '/api/floor' })).statusCode).toBe(401);
  expect((await lead.get('/api/floor')).status).toBe(200);
});

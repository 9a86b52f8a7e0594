import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { insertAssemblySheet, insertWrenches } from '../support/assembly-sheet.ts';
import { insertProcedure, type WrittenProcedure } from '../support/procedures.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let familyId: string;
let strip: WrittenProcedure;
let serials = 30;

beforeAll(async () => {
  shop = await openShop();
  ({ familyId } = await insertAssemblySheet(shop.sql, shop.people.lead));
  await insertWrenches(shop.sql);
  strip = await insertProcedure(shop.sql, {
    familyId,
    code: 'strip-h388',
    kind: 'strip',
    steps: [
      { title: 'Undo the head bolts', fastenerSet: 'head' },
      { title: 'Undo the rod bolts', fastenerSet: 'rod' },
      { title: 'Undo the sprocket', fastenerSet: 'sprocket' },
      { title: 'Sprocket off', fastenerSet: 'sprocket' },
      { title: 'Rod cap off', fastenerSet: 'rod', pieces: [{ name: 'rod cap', expected: 1 }] },
    ],
  });
});
afterAll(() => shop.close());

async function takeIn(): Promise<string> {
  serials += 1;
  const { body } = await shop.as.writer.post('/api/jobs', {
    engine: { serial: `H388-02${serials}`, familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '120',
    complaint: 'Rattles when warm',
    bayId: shop.bays.rack,
  });
  return body.id;
}

const newtonMetres = (value: string) => ({ value, unit: 'N.m' });
const degrees = (value: string) => ({ value, unit: 'deg' });
const mm = (value: string) => ({ value, unit: 'mm' });
const pull = (jobId: string, of: object) => shop.as.technician.post(`/api/jobs/${jobId}/torque-pulls`, of);
const setOf = async (jobId: string, code: string) =>
  (await shop.as.technician.get(`/api/jobs/${jobId}/assembly`)).body.sets.find(
    (set: { code: string }) => set.code === code,
  );

async function undo(jobId: string, titles: readonly string[]): Promise<void> {
  const { body } = await shop.as.technician.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
  for (const title of titles) {
    const path = `/api/procedure-runs/${body.id}/steps/${strip.steps[title]}/mark`;
    expect((await shop.as.technician.post(path, { mark: 'done' })).status).toBe(200);
  }
}

describe('a set that was loosened', () => {
  test('that may be used again asks for nothing', async () => {
    const jobId = await takeIn();
    await undo(jobId, ['Undo the head bolts']);
    expect((await setOf(jobId, 'head')).renewals).toEqual([]);
  });

  test('to be inspected obliges to look at each, once; the technician who looked says so', async () => {
    const jobId = await takeIn();
    await undo(jobId, ['Undo the sprocket', 'Sprocket off']);
    const { renewals } = await setOf(jobId, 'sprocket');
    expect(renewals).toHaveLength(1);
    expect(renewals[0].words).toContain('look at thread, shank and length of each');
    const inspect = (set: string) =>
      shop.as.technician.post(`/api/jobs/${jobId}/fastener-inspections`, {
        set,
        words: 'threads clean, none stretched',
      });
    expect((await inspect('head')).status).toBe(422);
    expect((await inspect('sprocket')).status).toBe(201);
    expect((await inspect('sprocket')).status).toBe(409);
    expect((await setOf(jobId, 'sprocket')).renewals[0].open).toBe(false);
  });

  test('of one-time fasteners that stores does not know obliges to get them', async () => {
    const jobId = await takeIn();
    await undo(jobId, ['Undo the rod bolts']);
    const [renewal] = (await setOf(jobId, 'rod')).renewals;
    expect(renewal.words).toBe('rod bolts: used once and loosened; 2 new needed, and stores knows no part for them.');
    expect(renewal.obligationId).not.toBeNull();
  });

  test('of one-time fasteners asks for new ones again when its pieces come off in a second opening, once any was pulled', async () => {
    const jobId = await takeIn();
    const as = shop.as.technician;
    const open = async (): Promise<string> => (await as.post(`/api/jobs/${jobId}/openings`)).body.id;
    const capOff = async (openingId: string): Promise<string> => {
      const pieces = [{ stepPieceId: strip.pieces['rod cap'], count: 1 }];
      const off = await as.post(`/api/openings/${openingId}/pieces/off`, { pieces });
      expect([off.status, off.body.detail]).toEqual([200, undefined]);
      return off.body.pieces[0].id;
    };
    const renewals = async () => (await setOf(jobId, 'rod')).renewals.length;
    const settle = async () => {
      const items: { id: string; discharged: object | null }[] = (await as.get(`/api/jobs/${jobId}/obligations`)).body
        .items;
      for (const { id } of items)
        await shop.as.lead.post(`/api/obligations/${id}/discharge`, { reason: 'New ones bought' });
    };
    const backAndClosed = async (openingId: string, pieceId: string) => {
      await settle();
      const fitted = await as.post(`/api/openings/${openingId}/pieces/fitted`, { pieces: [{ pieceId, count: 1 }] });
      expect([fitted.status, fitted.body.detail]).toEqual([200, undefined]);
      const closed = await shop.as.lead.post(`/api/openings/${openingId}/close`, { override: 'Only the bolts matter' });
      expect([closed.status, closed.body.detail]).toEqual([200, undefined]);
    };
    const first = await open();
    await as.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId });
    const cap = await capOff(first);
    expect(await renewals(), 'its step is not done yet, and asks when it is').toBe(0);
    const [{ runId }] = await shop.sql<
      [{ runId: string }]
    >`select id as "runId" from procedure_run where job_id = ${jobId}`;
    const path = `/api/procedure-runs/${runId}/steps/${strip.steps['Rod cap off']}/mark`;
    expect((await as.post(path, { mark: 'done' })).status).toBe(200);
    expect(await renewals()).toBe(1);
    await backAndClosed(first, cap);
    const second = await open();
    const again = await capOff(second);
    expect(await renewals(), 'nothing was pulled since').toBe(1);
    await backAndClosed(second, again);
    await shop.sql`
      insert into torque_pull (id, job_id, set_code, fastener, stage, keyed_text, keyed_unit, torque_unm, pulled_by_id)
      values (gen_random_uuid(), ${jobId}, 'rod', 1, 1, '20', 'N.m', 20000000, ${shop.people.technician})`;
    await capOff(await open());
    expect(await renewals()).toBe(2);
    const [told] = await shop.sql`
      select data ->> 'loosened' as words from event where job_id = ${jobId} and kind = 'piece.counted' order by recorded_at desc limit 1`;
    expect(told?.words).toBe('rod bolts: used once and loosened; 2 new needed, and stores knows no part for them.');
  });

  test('of one-time fasteners puts as many on the job’s demand', async () => {
    const bring = (row: string) => shop.as.clerk.post('/api/parts/import', `number,name,family,fastener_set\n${row}\n`);
    for (const row of ['RB-1,Rod bolt,,rod', 'RB-1,Rod bolt,H388,rods'])
      expect((await bring(row)).body.errors).toMatchObject([{ pointer: 'row 2, column fastener_set' }]);
    expect((await bring('RB-1,Rod bolt,H388,rod')).status).toBe(201);
    const part = { number: 'RB-1' };
    const known = (await shop.as.clerk.get('/api/parts?search=RB-1')).body.items;
    expect(known).toMatchObject([{ number: 'RB-1', fastenerSet: 'rod' }]);
    const jobId = await takeIn();
    await undo(jobId, ['Undo the rod bolts']);
    const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(body.lines).toMatchObject([{ part: { number: part.number }, wanted: 2 }]);
    const { renewals, torqueToYield } = await setOf(jobId, 'rod');
    expect(torqueToYield).toBe(true);
    expect(renewals).toEqual([
      { words: `Rod bolt ${part.number}: 2 asked of stores, 0 issued`, obligationId: null, open: true },
    ]);
  });
});

describe('fasteners turned past yield', () => {
  test('are never pulled again: struck, the bolt comes out whole and a new one starts at the first stage', async () => {
    const jobId = await takeIn();
    const rod = (fastener: number, stage: number, value: object) => pull(jobId, { set: 'rod', fastener, stage, value });
    for (const fastener of [1, 2]) expect((await rod(fastener, 1, newtonMetres('12'))).status).toBe(201);
    const turned = await rod(1, 2, degrees('92'));
    expect((await rod(1, 2, degrees('90'))).body.detail).toContain(
      'turned past yield in stage 2: it is never pulled again',
    );
    const id = turned.body.pulls.find(({ stage }: { stage: number }) => stage === 2).id;
    expect((await shop.as.technician.post(`/api/torque-pulls/${id}/strike`, { reason: 'Turned too far' })).status).toBe(
      200,
    );
    const set = await setOf(jobId, 'rod');
    expect(set.next).toMatchObject({ fastener: 1, stage: 1 });
    expect(set.renewals).toMatchObject([{ open: true, words: expect.stringContaining('1 asked of stores') }]);
    expect(set.pulls.map(({ fastener }: { fastener: number }) => fastener)).toEqual([2]);
  });

  test('keyed by mistake and not turned, only the pull is struck', async () => {
    const jobId = await takeIn();
    for (const fastener of [1, 2]) await pull(jobId, { set: 'rod', fastener, stage: 1, value: newtonMetres('12') });
    const { body } = await pull(jobId, { set: 'rod', fastener: 1, stage: 2, value: degrees('90') });
    const id = body.pulls.find(({ stage }: { stage: number }) => stage === 2).id;
    await shop.as.technician.post(`/api/torque-pulls/${id}/strike`, { reason: 'Wrong bolt keyed', boltTurned: false });
    const set = await setOf(jobId, 'rod');
    expect(set.next).toMatchObject({ fastener: 1, stage: 2 });
    expect(set.renewals).toEqual([]);
  });
});

describe('a wrench', () => {
  test('with an adapter straight on is set lower; what it showed and what the bolt got are both kept', async () => {
    const jobId = await takeIn();
    const adapter = { wrenchLength: mm('400'), adapterLength: mm('45'), angle: degrees('0') };
    const { status, body } = await pull(jobId, {
      set: 'head',
      fastener: 1,
      stage: 1,
      value: newtonMetres('18.0'),
      instrumentCode: 'TW-1',
      adapter,
    });
    expect(status).toBe(201);
    expect(body.pulls[0]).toMatchObject({
      value: newtonMetres('18.0'),
      atBolt: newtonMetres('20.0'),
      adapter: { wrenchLength: mm('400.0'), adapterLength: mm('45.0'), angle: degrees('0') },
      instrumentCode: 'TW-1',
    });
    const asIfWithout = await pull(jobId, { set: 'head', fastener: 2, stage: 1, value: newtonMetres('20'), adapter });
    expect(asIfWithout.body.detail).toContain('22.3 N·m is outside 19.2 N·m to 20.8 N·m');
  });

  test('out of its range, or out of calibration, is refused with the field and the reason', async () => {
    const jobId = await takeIn();
    const ask = (change: object) =>
      pull(jobId, { set: 'head', fastener: 1, stage: 1, value: newtonMetres('19.9'), ...change });
    for (const [instrumentCode, why] of [
      ['TW-2', 'TW-2 is not to be used below 20.0 N·m.'],
      ['TW-3', 'The calibration of TW-3 ran out on 2020-01-31.'],
    ]) {
      const { status, body } = await ask({ instrumentCode });
      expect(status).toBe(422);
      expect(body.errors).toEqual([{ pointer: '/instrumentCode', detail: why }]);
    }
    expect((await ask({ instrumentCode: 'TW-9' })).status).toBe(404);
    const adapter = { wrenchLength: mm('400'), adapterLength: mm('45'), angle: degrees('0') };
    for (const [field, given] of [
      ['angle', degrees('181')],
      ['wrenchLength', mm('0')],
      ['adapterLength', mm('-45')],
    ] as const) {
      const { status, body } = await ask({ adapter: { ...adapter, [field]: given } });
      expect([status, body.errors?.[0]?.pointer]).toEqual([422, `/adapter/${field}`]);
    }
    const { body } = await ask({
      adapter: { wrenchLength: mm('40'), adapterLength: mm('60'), angle: degrees('180') },
    });
    expect(body.errors).toMatchObject([{ pointer: '/adapter' }]);
  });

  test('is told with its pulls since calibration; one that has had 5 000 is not offered', async () => {
    const jobId = await takeIn();
    await shop.sql`
      insert into torque_pull (id, job_id, set_code, fastener, stage, keyed_text, keyed_unit, torque_unm, instrument_id, pulled_by_id)
      select gen_random_uuid(), ${jobId}, 'bench block', 1, 1, '20', 'N.m', 20000000, i.id, ${shop.people.technician}
      from instrument i, generate_series(1, 5000) where i.code = 'TW-1'`;
    const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
    const wrench = body.wrenches.find(({ code }: { code: string }) => code === 'TW-1');
    expect(wrench.pulls).toBeGreaterThanOrEqual(5000);
    expect(body.sets[0].next.instrumentCode).toBe('TW-2');
    const refused = await pull(jobId, {
      set: 'head',
      fastener: 1,
      stage: 1,
      value: newtonMetres('20'),
      instrumentCode: 'TW-1',
    });
    expect(refused.body.detail).toContain('TW-1 has had more than 5000 pulls since its calibration');
  });
});

test('a stage is turned by at most 360°, by more than nothing, and a torque is no angle', async () => {
  const jobId = await takeIn();
  for (const value of [degrees('361'), degrees('0'), degrees('-90')]) {
    const { status, body } = await pull(jobId, { set: 'rod', fastener: 1, stage: 2, value });
    expect([status, body.errors?.[0]?.pointer]).toEqual([422, '/value']);
  }
  expect((await pull(jobId, { set: 'rod', fastener: 7, stage: 1, value: newtonMetres('12') })).body).toMatchObject({
    errors: [{ pointer: '/fastener', detail: 'rod bolts has no position 7.' }],
  });
  expect((await pull(jobId, { set: 'rod', fastener: 1, stage: 3, value: newtonMetres('12') })).body).toMatchObject({
    errors: [{ pointer: '/stage' }],
  });
  expect((await pull(jobId, { set: 'rods', fastener: 1, stage: 1, value: newtonMetres('12') })).body).toMatchObject({
    errors: [{ pointer: '/set' }],
  });
});

test('a figure past three quarters of the proof load is noted at the bench; an angle never', async () => {
  const jobId = await takeIn();
  expect((await setOf(jobId, 'sprocket')).cautions).toEqual([
    'Stage 1 is about 86 % of the thread’s proof load (dry, K 0.20).',
  ]);
  expect((await setOf(jobId, 'rod')).cautions).toEqual([]);
});

describe('ring gaps', () => {
  const place = async (jobId: string, second: string) =>
    shop.as.technician.post(`/api/jobs/${jobId}/ring-placements`, {
      gaps: [
        { ring: '1', angle: degrees('20'), faces: 'crown' },
        { ring: '2', angle: degrees(second), faces: 'crown' },
        { ring: 'S', angle: degrees('120') },
      ],
    });
  const placed = async (jobId: string) =>
    (await shop.as.technician.get(`/api/jobs/${jobId}/assembly`)).body.ringsPlaced;

  test('are signed off by another person once they stand well, and the build sheet says so', async () => {
    const jobId = await takeIn();
    await place(jobId, '90');
    const faulty = (await placed(jobId)).id;
    expect((await shop.as.colleague.post(`/api/ring-placements/${faulty}/sign-off`)).status).toBe(422);
    await place(jobId, '200');
    const { id } = await placed(jobId);
    expect((await shop.as.colleague.post(`/api/ring-placements/${faulty}/sign-off`)).status).toBe(409);
    expect((await shop.as.technician.post(`/api/ring-placements/${id}/sign-off`)).body.detail).toContain('yourself');
    expect((await shop.as.clerk.post(`/api/ring-placements/${id}/sign-off`)).status).toBe(403);
    expect((await shop.as.colleague.post(`/api/ring-placements/${id}/sign-off`)).status).toBe(200);
    expect((await shop.as.lead.post(`/api/ring-placements/${id}/sign-off`)).status).toBe(409);
    expect((await placed(jobId)).signedBy.name).toBe('Oskar Pell');
    const { body } = await shop.as.writer.get(`/api/jobs/${jobId}/sheet`);
    expect(body.ringsPlaced).toMatchObject({ by: 'Nadia Quill', marksWell: true, signedBy: 'Oskar Pell' });
    await place(jobId, '210');
    expect((await placed(jobId)).signedBy).toBeNull();
  });
});

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { insertAssemblySheet, insertShims } from '../support/assembly-sheet.ts';
import { openShop, type Shop } from '../support/shop.ts';

let shop: Shop;
let familyId: string;
const mm = (value: string) => ({ value, unit: 'mm' });
const asked = (valve: string, lash: readonly [string, string | null], fitted: string) => ({
  valve,
  lash: { low: lash[0], high: lash[1], unit: 'mm' },
  fitted: mm(fitted),
});
// With 2.35 the first comes to 0.13 … 0.14 and so does the last; the one between is in range as it is.
const head = [
  asked('IN-L', ['0.03', '0.04'], '2.450'),
  asked('EX-L', ['0.120', '0.125'], '2.350'),
  asked('EX-R', ['0.18', '0.19'], '2.300'),
];

beforeAll(async () => {
  shop = await openShop();
  const valves = [
    { code: 'EX-L', name: 'exhaust left' },
    { code: 'EX-R', name: 'exhaust right' },
    { code: 'DECO', name: 'decompressor', pitch: 0.75 },
  ];
  familyId = (await insertAssemblySheet(shop.sql, shop.people.lead, valves)).familyId;
  await insertShims(shop.sql, { thicknesses: [2.3, 2.35], count: 1, movedById: shop.people.clerk });
});
afterAll(() => shop.close());

let serial = 200;
async function jobOf(): Promise<string> {
  serial += 1;
  const { body } = await shop.as.writer.post('/api/jobs', {
    engine: { serial: `H388-0${serial}`, familyId },
    owner: { name: 'Ingrid Falk', contact: '' },
    hours: '120',
    complaint: 'Rattles when warm',
    bayId: shop.bays.rack,
  });
  return body.id;
}
const propose = (jobId: string, valves: readonly object[]) =>
  shop.as.technician.post(`/api/jobs/${jobId}/head-shim-proposals`, { valves });
const take = (jobId: string, valves: readonly object[], seen?: string) =>
  shop.as.technician.post(`/api/jobs/${jobId}/head-shims`, { valves, ...(seen === undefined ? {} : { seen }) });
const reserved = async () =>
  (
    await shop.sql<{ number: string; reserved: number }[]>`
      select p.number, l.reserved from stock_lot l join part p on p.id = l.part_id order by p.number`
  ).map(({ number, reserved: pieces }) => [number, pieces]);

describe('the shims of a whole head in a job', () => {
  test('a proposal serves all valves together and keeps nothing', async () => {
    const jobId = await jobOf();
    const { status, body } = await propose(jobId, head);
    expect(status).toBe(200);
    expect(body).toMatchObject({ guaranteed: 3, possible: 0, out: 0, bought: 1, fromBins: 1, calledOff: [] });
    expect(body.valves).toMatchObject([
      { valve: 'IN-L', before: 'out', chosen: { from: 'bin', thickness: mm('2.350') } },
      { valve: 'EX-L', before: 'guaranteed', chosen: { from: 'stays' } },
      { valve: 'EX-R', before: 'out', chosen: { from: 'buy', thickness: mm('2.350') } },
    ]);
    expect(body.comeOut).toEqual(['intake left', 'exhaust right']);
    const page = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
    expect(page.body.valves[0].choice).toBeNull();
    expect(await reserved()).toEqual([
      ['SH-748-2.30', 0],
      ['SH-748-2.35', 0],
    ]);
  });

  test('taking them keeps every choice, reserves the very lots and leaves what must be bought short', async () => {
    const jobId = await jobOf();
    const { body: proposal } = await propose(jobId, head);
    const { status, body } = await take(jobId, head, proposal.seen);
    expect(status).toBe(201);
    expect(body.valves).toEqual(proposal.valves);
    const page = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
    const choices = page.body.valves.map(({ code, choice }: { code: string; choice: { words: string } | null }) => [
      code,
      choice?.words,
    ]);
    expect(choices).toEqual([
      ['IN-L', 'SH-748-2.35 from bin S-14 (1 there)'],
      ['EX-L', 'the shim in it stays'],
      ['EX-R', 'SH-748-2.35, to be bought'],
      ['DECO', undefined],
    ]);
    expect(await reserved()).toEqual([
      ['SH-748-2.30', 0],
      ['SH-748-2.35', 1],
    ]);
    const { body: demands } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(demands.lines).toMatchObject([
      {
        part: { number: 'SH-748-2.35' },
        reserved: 1,
        short: 1,
        // The one that lies there is wanted by its thickness; the one to be bought is of any.
        lotRule: {
          rule: 'exact thickness',
          thicknesses: [mm('2.35')],
          othersAny: true,
          cause: 'shim choice',
          reason: 'shim for exhaust right, shim for intake left',
        },
      },
    ]);
    const [event] = await shop.sql`select kind from event where job_id = ${jobId} order by happened_at desc limit 1`;
    expect(event?.kind).toBe('shims.chosen');
  });

  test('taking others before the first are handed out calls the first off, and they go back to their bins', async () => {
    const jobId = await jobOf();
    const before = await reserved();
    const valves = [asked('IN-L', ['0.09', '0.10'], '2.350')];
    expect((await take(jobId, valves)).body.valves[0].chosen.thickness).toEqual(mm('2.300'));
    expect(await reserved()).not.toEqual(before);
    const others = [asked('IN-L', ['0.12', '0.13'], '2.350')];
    const { body: shown } = await propose(jobId, others);
    expect(shown).toMatchObject({ calledOff: ['1 × SH-748-2.30'], valves: [{ chosen: { from: 'stays' } }] });
    expect((await take(jobId, others, shown.seen)).status).toBe(201);
    const { body: left } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(left.lines).toMatchObject([{ lotRule: { rule: 'oldest', words: '', cause: 'shim choice' } }]);
    expect(await reserved()).toEqual(before);
    const { body: demands } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(demands.lines).toMatchObject([{ reserved: 0, short: 0, cancelled: 1, reasons: [{ withdrawn: true }] }]);
  });

  test('asked again for the same, the shim held for the valve counts as being in its bin', async () => {
    const jobId = await jobOf();
    const valves = [asked('IN-L', ['0.09', '0.10'], '2.350')];
    const first = await take(jobId, valves);
    const again = await take(jobId, valves);
    expect(again.status).toBe(201);
    expect(again.body.valves[0].chosen).toEqual(first.body.valves[0].chosen);
    const { body: demands } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(demands.lines).toMatchObject([{ wanted: 2, reserved: 1, cancelled: 1 }]);
    // One valve alone replaces it as well.
    expect((await shop.as.technician.post(`/api/jobs/${jobId}/shims`, valves[0] ?? {})).status).toBe(201);
    const { body: then } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(then.lines).toMatchObject([{ wanted: 3, reserved: 0, notAsked: 1, cancelled: 2 }]);
    await shop.as.clerk.post(`/api/demand-lines/${then.lines[0].id}/cancel`, { words: 'tidied' });
  });

  test('what was handed out is not called off', async () => {
    const jobId = await jobOf();
    await insertShims(shop.sql, { thicknesses: [2.8], count: 1, movedById: shop.people.clerk, bin: 'S-18' });
    const valves = [asked('IN-L', ['0.18', '0.19'], '2.750')];
    await take(jobId, valves);
    const { body: before } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    const issued = await shop.as.clerk.post(`/api/demand-lines/${before.lines[0].id}/issue`, { quantity: 1 });
    expect(issued.status, JSON.stringify(issued.body)).toBeLessThan(300);
    const { body } = await take(jobId, valves);
    expect(body.calledOff).toEqual([]);
    const { body: then } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
    expect(then.lines).toMatchObject([{ wanted: 2, issued: 1, short: 1, cancelled: 0 }]);
  });

  test('a lot that is not in its bin is left out, and the next best is proposed', async () => {
    const jobId = await jobOf();
    await insertShims(shop.sql, { thicknesses: [3.0, 3.01], count: 1, movedById: shop.people.clerk, bin: 'S-19' });
    const valves = [asked('IN-L', ['0.18', '0.19'], '2.945')];
    const { body: shown } = await propose(jobId, valves);
    expect(shown.valves[0]).toMatchObject({
      chosen: { thickness: mm('3.000') },
      alternatives: expect.arrayContaining([expect.objectContaining({ thickness: mm('3.010') })]),
    });
    const without = [shown.valves[0].chosen.lotId];
    const { body } = await shop.as.technician.post(`/api/jobs/${jobId}/head-shim-proposals`, { valves, without });
    expect(body.valves[0].chosen).toMatchObject({ from: 'bin', thickness: mm('3.010') });
  });

  test('what was shown and is not there any more is not taken, and nothing of it is kept', async () => {
    const [first, second] = [await jobOf(), await jobOf()];
    await insertShims(shop.sql, { thicknesses: [2.4], count: 1, movedById: shop.people.clerk, bin: 'S-15' });
    const valves = [asked('IN-L', ['0.18', '0.19'], '2.350'), asked('EX-L', ['0.12', '0.13'], '2.350')];
    const { body: shown } = await propose(first, valves);
    expect(shown.valves[0].chosen).toMatchObject({ from: 'bin', thickness: mm('2.400') });
    expect((await take(second, valves)).status).toBe(201);
    expect(await take(first, valves, shown.seen)).toMatchObject({ status: 409 });
    const page = await shop.as.technician.get(`/api/jobs/${first}/assembly`);
    expect(page.body.valves[1].choice).toBeNull();
    expect((await shop.as.technician.get(`/api/jobs/${first}/demands`)).body.lines).toEqual([]);
    // Without saying what was shown it takes what there is now: one to be bought.
    expect((await take(first, valves)).body.valves[0].chosen.from).toBe('buy');
  });

  test('two engines that want the last shim at one moment: one gets it, the other has it bought', async () => {
    await insertShims(shop.sql, { thicknesses: [2.6], count: 1, movedById: shop.people.clerk, bin: 'S-16' });
    const jobs = [await jobOf(), await jobOf()];
    const valves = [asked('IN-L', ['0.18', '0.19'], '2.550')];
    const taken = await Promise.all(jobs.map((jobId) => take(jobId, valves)));
    expect(taken.map(({ status }) => status)).toEqual([201, 201]);
    expect(taken.map(({ body }) => body.valves[0].chosen.from).sort()).toEqual(['bin', 'buy']);
    expect(await reserved()).toContainEqual(['SH-748-2.60', 1]);
  });

  test('a screw is told its turn, and has no shim to take', async () => {
    const jobId = await jobOf();
    const valves = [{ valve: 'DECO', lash: { low: '0.20', high: '0.21', unit: 'mm' } }];
    const { body } = await propose(jobId, valves);
    expect(body.valves[0]).toMatchObject({ chosen: null, turn: { least: { value: '34' }, most: { value: '38' } } });
    expect(await take(jobId, valves)).toMatchObject({ status: 422 });
  });

  test('bad questions are refused with the field', async () => {
    const jobId = await jobOf();
    const one = asked('IN-L', ['0.03', '0.04'], '2.450');
    const at = async (valves: readonly object[]) => (await propose(jobId, valves)).body.errors?.[0]?.pointer;
    expect(await at([one, one])).toBe('/valves/1/valve');
    expect(await at([{ ...one, lash: { low: '0.10', high: '0.05', unit: 'mm' } }])).toBe('/valves/0/lash/high');
    expect(await at([{ ...one, lash: undefined }])).toBe('/valves/0/lash');
    expect(await at([{ ...one, fitted: undefined }])).toBe('/valves/0/fitted');
    for (const asked of [{ ...one, valve: 'X' }, { valve: 'X' }]) {
      expect(await propose(jobId, [asked])).toMatchObject({
        status: 404,
        body: { detail: expect.stringContaining('no valve X'), errors: [{ pointer: '/valves/0/valve' }] },
      });
    }
    const open = await propose(jobId, [asked('IN-L', ['0.30', null], '2.350')]);
    expect(open.body.valves[0].why).toContain('measure again');
  });
});

describe('several heads that draw on the same bins', () => {
  const heads = (...of: (readonly [string, readonly object[]])[]) => ({
    heads: of.map(([jobId, valves]) => ({ jobId, valves })),
  });

  test('the last shim goes to the engine that nothing else helps, and all are taken in one step', async () => {
    const [first, second] = [await jobOf(), await jobOf()];
    await insertShims(shop.sql, { thicknesses: [1.6, 1.61], count: 1, movedById: shop.people.clerk, bin: 'S-20' });
    // Alone, the first would take the 1.60; together it takes the 1.61, since the second can take nothing else.
    const [here, there] = [[asked('IN-L', ['0.18', '0.19'], '1.545')], [asked('IN-L', ['0.18', '0.19'], '1.530')]];
    expect((await propose(first, here)).body.valves[0].chosen.thickness).toEqual(mm('1.600'));
    const question = heads([first, here], [second, there]);
    const { status, body: shown } = await shop.as.technician.post('/api/head-shim-proposals', question);
    expect(status, JSON.stringify(shown)).toBe(200);
    expect(shown).toMatchObject({
      guaranteed: 2,
      bought: 0,
      fromBins: 2,
      heads: [
        { jobId: first, valves: [{ chosen: { thickness: mm('1.610') } }] },
        { jobId: second, valves: [{ chosen: { thickness: mm('1.600') } }] },
      ],
    });
    const taken = await shop.as.technician.post('/api/head-shims', { ...question, seen: shown.seen });
    expect(taken.status, JSON.stringify(taken.body)).toBe(201);
    for (const jobId of [first, second]) {
      const { body } = await shop.as.technician.get(`/api/jobs/${jobId}/demands`);
      expect(body.lines).toMatchObject([{ reserved: 1, short: 0 }]);
      const [event] = await shop.sql`select kind from event where job_id = ${jobId} order by happened_at desc limit 1`;
      expect(event?.kind).toBe('shims.chosen');
    }
  });

  test('a shim never moves from one engine to another', async () => {
    const [first, second] = [await jobOf(), await jobOf()];
    // Each has what the other wants.
    const question = heads(
      [first, [asked('IN-L', ['0.19', '0.20'], '1.205')]],
      [second, [asked('IN-L', ['0.06', '0.07'], '1.275')]],
    );
    const { body } = await shop.as.technician.post('/api/head-shim-proposals', question);
    const from = body.heads.flatMap(({ valves }: { valves: { chosen: { from: string } | null }[] }) =>
      valves.map(({ chosen }) => chosen?.from ?? 'none'),
    );
    expect(from).not.toContain('engine');
    expect(from).not.toContain('stays');
  });

  test('crossed takes of the same engines, in either order, all come through', async () => {
    const [first, second] = [await jobOf(), await jobOf()];
    const valves = [asked('IN-L', ['0.12', '0.13'], '2.350')];
    const taken = await Promise.all(
      [0, 1, 2, 3, 4, 5].map((index) =>
        shop.as.technician.post(
          '/api/head-shims',
          index % 2 === 0 ? heads([first, valves], [second, valves]) : heads([second, valves], [first, valves]),
        ),
      ),
    );
    expect(taken.map(({ status }) => status)).toEqual([201, 201, 201, 201, 201, 201]);
  });

  test('one job twice, or one handed back, is refused and nothing is kept', async () => {
    const jobId = await jobOf();
    const valves = [asked('IN-L', ['0.09', '0.10'], '2.350')];
    const twice = await shop.as.technician.post('/api/head-shims', heads([jobId, valves], [jobId, valves]));
    expect(twice).toMatchObject({ status: 422, body: { errors: [{ pointer: '/heads/1/jobId' }] } });
    const unknown = await shop.as.technician.post(
      '/api/head-shims',
      heads([jobId, valves], [shop.people.lead, valves]),
    );
    expect(unknown.status).toBe(404);
    const page = await shop.as.technician.get(`/api/jobs/${jobId}/assembly`);
    expect(page.body.valves[0].choice).toBeNull();
  });
});

describe('shims that are in', () => {
  const measured = (jobId: string, valves: readonly object[]) =>
    shop.as.technician.post(`/api/jobs/${jobId}/fitted-shims`, { valves });

  test('are kept by their measured thickness, apart from what is printed on them, and reckoned with', async () => {
    const jobId = await jobOf();
    const { status, body } = await measured(jobId, [
      { valve: 'IN-L', thickness: mm('2.342'), printed: mm('2.35') },
      { valve: 'EX-L', thickness: { value: '0.0926', unit: 'in' } },
    ]);
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body.valves).toMatchObject([
      { code: 'IN-L', fitted: { thickness: mm('2.342'), printed: mm('2.350'), by: { id: shop.people.technician } } },
      { code: 'EX-L', fitted: { thickness: mm('2.352'), printed: null } },
      { code: 'EX-R', fitted: null },
      { code: 'DECO', fitted: null },
    ]);
    const lash = { low: '0.18', high: '0.19', unit: 'mm' };
    const shown = await propose(jobId, [{ valve: 'IN-L', lash }]);
    // 2.342 ± 0.004 + 0.18 … 0.19 − 0.13
    expect(shown.body.valves[0].wanted).toEqual({ low: '2.388', high: '2.406', unit: 'mm' });
  });

  test('another engine of the same bins is offered beside, with what is missing of it', async () => {
    const [here, there] = [await jobOf(), await jobOf()];
    await measured(there, [{ valve: 'IN-L', thickness: mm('2.342') }]);
    const { body } = await shop.as.technician.get(`/api/jobs/${here}/heads-beside`);
    const beside = body.items.find(({ jobId }: { jobId: string }) => jobId === there);
    expect(beside).toMatchObject({ missing: ['intake left', 'exhaust left', 'exhaust right'] });
    expect(body.items.map(({ jobId }: { jobId: string }) => jobId)).not.toContain(here);
    expect((await shop.as.technician.get(`/api/jobs/${shop.people.lead}/heads-beside`)).status).toBe(404);
  });

  test('slips are refused with the field', async () => {
    const jobId = await jobOf();
    const at = async (valve: object) => (await measured(jobId, [valve])).body.errors?.[0];
    expect(await at({ valve: 'IN-L', thickness: mm('23.42') })).toMatchObject({ pointer: '/valves/0/thickness' });
    expect((await at({ valve: 'IN-L', thickness: mm('23.42') })).detail).toContain('1.20 to 3.50 mm');
    expect(await at({ valve: 'IN-L', thickness: mm('-2.3') })).toMatchObject({ pointer: '/valves/0/thickness' });
    expect(await at({ valve: 'IN-L', thickness: mm('2.3'), printed: mm('0.2') })).toMatchObject({
      pointer: '/valves/0/printed',
    });
    expect(await at({ valve: 'DECO', thickness: mm('2.3') })).toMatchObject({ pointer: '/valves/0/valve' });
    expect(await at({ valve: 'EX-9', thickness: mm('2.3') })).toMatchObject({ pointer: '/valves/0/valve' });
    expect((await measured(jobId, [])).status).toBe(400);
    expect((await shop.as.writer.post(`/api/jobs/${jobId}/fitted-shims`, { valves: [] })).status).toBeGreaterThan(399);
  });
});

import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readCode, writeCode } from '#domain/labels/code.ts';
import { openShop, takeIn } from '../support/shop.ts';
import { addBin, addLot, addPart } from '../support/stores.ts';

const shop = await openShop();
afterAll(shop.close);
const { clerk, technician, lead, writer } = shop.as;

let engine: { jobId: string; engineId: string; number: number };
let trayId: string;
let partId: string;
let rack: { id: string; openingId: string };
let bin: { id: string; code: string };
beforeAll(async () => {
  await shop.sql`update shop set label_mark = 'Q7'`;
  engine = await takeIn(shop, { serial: 'H355-0402', bay: 'strip' });
  bin = await addBin(shop.sql);
  partId = (await addPart(shop.sql, { number: 'H355-P', name: 'Piston' })).id;
  await addLot(shop, { partId, quantity: 2, binId: bin.id });
  await technician.post(`/api/engines/${engine.engineId}/take`, { bayId: shop.bays.strip, trayIds: [], counts: [] });
  const made = await technician.post(`/api/jobs/${engine.jobId}/trays`, {
    name: 'Cam caps',
    label: 'T-7',
    layer: 'head',
  });
  expect(made.status).toBe(201);
  trayId = made.body.id;
  const opening = await technician.post(`/api/jobs/${engine.jobId}/openings`);
  const caps = { name: 'cam cap', fromWhere: 'head', matchedSet: 'caps', expected: 3 };
  const off = await technician.post(`/api/openings/${opening.body.id}/pieces/off`, {
    pieces: [{ byHand: caps, count: 3 }],
    trayId,
  });
  rack = { id: off.body.pieces[0].id, openingId: opening.body.id };
});

const labels = () => [
  { kind: 'engine', id: engine.engineId },
  { kind: 'tray', id: trayId },
  { kind: 'bin', id: bin.id },
  { kind: 'part', id: partId },
  { kind: 'rack', id: rack.id },
];
const draw = (of: readonly object[] = labels(), more = {}) =>
  clerk.post('/api/labels/drawings', { labels: of, stock: '21-on-a4', ...more });
const codes = async () => (await draw()).body.items.map(({ code }: { code: string }) => code);
const scan = (text: string) => clerk.post('/api/scans', { text });

describe('a label', () => {
  test('of each kind carries a code of its kind with the shop’s mark', async () => {
    const { status, body } = await draw();
    expect(status).toBe(200);
    expect(body.items.map(({ name }: { name: string }) => name)).toEqual([
      'H355-0402',
      'T-7',
      bin.code,
      'H355-P',
      'cam cap',
    ]);
    for (const { kind, code, svg } of body.items) {
      expect(readCode(code)).toMatchObject({ ok: true, code: { kind, mark: 'Q7' } });
      expect(svg).toMatch(/^<svg [^>]*width="63.5mm" height="38.1mm"/);
    }
  });

  test('says the same code for ever, and the database refuses to change it', async () => {
    expect(await codes()).toEqual(await codes());
    for (const table of ['engine', 'tray', 'rack', 'bin', 'part']) {
      await expect(shop.sql`update ${shop.sql(table)} set label_serial = 'AAAAAAAA'`).rejects.toThrow(/stays as it is/);
    }
  });

  test('of two things whose serials would be the same differ all the same', async () => {
    const id = 'aaaaaaaa-0000-7000-8000-000000000001';
    const [first] = await shop.sql<{ serial: string }[]>`select label_serial_of(${id}, 0) as serial`;
    await shop.sql`insert into bin (id, code, walk_order, label_serial) values (gen_random_uuid(), 'ZZ-1', 900, 'AAAAAAAA')`;
    const [given] = await shop.sql<{ serial: string }[]>`select label_serial as serial from bin where code = 'ZZ-1'`;
    expect(given?.serial).not.toBe('AAAAAAAA');
    await shop.sql`alter table bin disable trigger label_serial`;
    await shop.sql`update bin set label_serial = ${first?.serial ?? ''} where code = 'ZZ-1'`;
    await shop.sql`alter table bin enable trigger label_serial`;
    await shop.sql`insert into bin (id, code, walk_order) values (${id}, 'ZZ-2', 901)`;
    const [second] = await shop.sql<{ serial: string }[]>`select label_serial as serial from bin where code = 'ZZ-2'`;
    expect(second?.serial).toMatch(/^[0-9A-HJKMNP-TV-Z]{8}$/);
    expect(second?.serial).not.toBe(first?.serial);
  });

  test('of something that is not there is refused, naming which', async () => {
    const { status, body } = await draw([...labels(), { kind: 'bin', id: crypto.randomUUID() }]);
    expect(status).toBe(404);
    expect(body.errors).toEqual([{ pointer: '/labels/5/id', detail: 'There is no such bin here. Choose it again.' }]);
  });

  test('is listed for choosing, found by part of a name', async () => {
    const { body } = await clerk.get('/api/labels?kind=tray&search=cam');
    expect(body.items).toEqual([{ id: trayId, name: 'T-7', about: `Cam caps, job ${engine.number}, H355-0402` }]);
    expect((await clerk.get('/api/labels?kind=part&search=%25')).body.items).toEqual([]);
  });
});

describe('a rack’s label', () => {
  test('leads to the line that lies in it and its job, by its code alone: many lines are called the same', async () => {
    const code = (await codes()).at(-1);
    const { body } = await scan(code);
    expect(body).toEqual({
      kind: 'rack',
      id: rack.id,
      name: 'cam cap',
      openingId: rack.openingId,
      closedAt: null,
      job: { ...body.job, id: engine.jobId, number: engine.number },
    });
    expect((await scan('cam cap')).status).toBe(404);
    const page = await clerk.get(`/api/racks/${rack.id}`);
    expect(page.body).toMatchObject({ pieceId: rack.id, loose: 3, openingId: rack.openingId, closedAt: null });
    expect((await clerk.get(`/api/racks/${trayId}`)).status).toBe(404);
  });

  test('names its places in their order, never how many lie in them', async () => {
    const { body } = await draw([{ kind: 'rack', id: rack.id }]);
    expect(body.items[0].svg).toContain('3 places: 1, 2, 3');
    expect(body.items[0].svg).not.toContain('loose');
  });

  test('is found for choosing while its engine is open', async () => {
    const { body } = await clerk.get('/api/labels?kind=rack&search=cam');
    expect(body.items).toEqual([{ id: rack.id, name: 'cam cap', about: `head, job ${engine.number}, H355-0402` }]);
  });
});

describe('a sheet of labels', () => {
  const print = (body: object) => clerk.post('/api/labels/sheet', { labels: labels(), stock: '21-on-a4', ...body });

  test('is a PDF, the same bytes each time', async () => {
    const [one, other] = [await print({}), await print({})];
    expect(one.status).toBe(200);
    expect(one.headers['content-type']).toBe('application/pdf');
    expect(String(one.body)).toMatch(/^%PDF-1\.\d/);
    expect(one.body).toBe(other.body);
  });

  test('starts at a label that is there, and says how many there are', async () => {
    expect((await print({ start: 21 })).status).toBe(200);
    const { status, body } = await print({ start: 22 });
    expect(status).toBe(422);
    expect(body.errors[0]).toMatchObject({ pointer: '/start', detail: expect.stringContaining('21 labels') });
  });

  test('of a stock nobody has, of far too many, or moved off the sheet is refused', async () => {
    expect((await print({ stock: '9-on-a3' })).status).toBe(400);
    expect((await print({ offsetMm: { right: 40, down: 0 } })).body.errors[0].pointer).toBe('/offsetMm/right');
    const many = Array.from({ length: 21 }, () => ({ kind: 'bin', id: bin.id, copies: 50 }));
    expect((await print({ labels: many })).status).toBe(413);
  });
});

describe('a scan', () => {
  test('tells what it is and where it stands', async () => {
    const [ofEngine, ofTray, ofBin, ofPart] = await codes();
    expect((await scan(ofEngine)).body).toMatchObject({
      kind: 'engine',
      id: engine.engineId,
      serial: 'H355-0402',
      jobId: engine.jobId,
      held: { kind: 'person', name: 'Nadia Quill', place: { name: 'Bay 1' } },
    });
    expect((await scan(ofTray.toLowerCase())).body).toMatchObject({
      kind: 'tray',
      id: trayId,
      label: 'T-7',
      layer: 'head',
      job: { id: engine.jobId, number: engine.number },
      held: { name: 'Nadia Quill' },
      offeredIn: null,
      emptiedAt: null,
    });
    expect((await scan(ofBin)).body).toMatchObject({
      kind: 'bin',
      code: bin.code,
      closed: false,
      parts: [{ name: 'Piston' }],
    });
    expect((await scan(ofPart)).body).toEqual({
      kind: 'part',
      part: { id: partId, number: 'H355-P', name: 'Piston' },
      retired: false,
      supersededBy: null,
    });
  });

  test('mistyped, of another shop, unknown, or of a badge is told in words', async () => {
    const swapped = writeCode({ kind: 'engine', mark: 'Q7', serial: 'ABCDEFGH' }).replace('DE', 'ED');
    expect((await scan(swapped)).body).toMatchObject({ status: 422, type: 'urn:crosshatch:problem:code-wrong' });
    const foreign = writeCode({ kind: 'bin', mark: 'ZZ', serial: 'AAAAAAAA' });
    expect((await scan(foreign)).body).toMatchObject({ status: 422, type: 'urn:crosshatch:problem:code-foreign' });
    const unknown = await scan(writeCode({ kind: 'bin', mark: 'Q7', serial: 'AAAAAAAA' }));
    expect(unknown).toMatchObject({ status: 404, body: { detail: expect.stringContaining('label of this shop') } });
    const badge = await scan(writeCode({ kind: 'badge', mark: 'Q7', serial: 'AAAAAAAAAAAAAAAA' }));
    expect(badge).toMatchObject({ status: 422, body: { detail: expect.stringContaining('badge') } });
    expect((await scan('nobody’s')).body).toMatchObject({ status: 404, detail: expect.stringContaining('“nobody’s”') });
  });

  test('needs somebody signed in, and goes no faster than anybody scans', async () => {
    expect((await shop.app.inject({ method: 'POST', url: '/api/scans', payload: { text: 'T-7' } })).statusCode).toBe(
      401,
    );
    const answers = await Promise.all(Array.from({ length: 230 }, () => scan('T-7')));
    expect(answers.some(({ status, body }) => status === 429 && body.detail.length > 10)).toBe(true);
  });
});

describe('badges', () => {
  const byBadge = (code: string, pin?: string) =>
    shop.app.inject({
      method: 'POST',
      url: '/api/session/badge',
      payload: { code, ...(pin === undefined ? {} : { pin }) },
    });
  const issue = async (key = crypto.randomUUID()) =>
    lead.post('/api/badges', { personId: shop.people.technician }, { 'idempotency-key': key });
  beforeAll(async () => {
    const { hash } = await import('@node-rs/argon2');
    await shop.sql`update person set pin_hash = ${await hash('2468')} where id = ${shop.people.technician}`;
  });

  test('are issued by those who may set up, and the code is told once and kept nowhere', async () => {
    expect((await writer.post('/api/badges', { personId: shop.people.technician })).status).toBe(403);
    const key = crypto.randomUUID();
    const { status, body } = await issue(key);
    expect(status).toBe(201);
    expect(body.code).toMatch(/^XHHQ7[0-9A-Z]{17}$/);
    expect((await issue(key)).body).toEqual({ ...body, code: null });
    const [kept] = await shop.sql`
      select (select count(*)::int from badge where encode(code_hash, 'escape') like ${`%${body.code}%`}) as badges,
        (select count(*)::int from idempotency_key where reply::text like ${`%${body.code}%`}) as replies,
        (select count(*)::int from event where data::text like ${`%${body.code}%`}) as events`;
    expect(kept).toEqual({ badges: 0, replies: 0, events: 0 });
  });

  test('ask for the PIN of their bearer, and open with it', async () => {
    const { code } = (await issue()).body;
    const asked = await byBadge(code);
    expect(asked.statusCode).toBe(200);
    expect(asked.json()).toEqual({
      session: null,
      pinOf: { id: shop.people.technician, name: 'Nadia Quill', initials: 'NQ' },
    });
    expect(asked.cookies).toEqual([]);
    expect((await byBadge(code, '0000')).json()).toMatchObject({ type: 'urn:crosshatch:problem:pin-wrong' });
    const opened = await byBadge(code, '2468');
    expect(opened.json()).toMatchObject({ pinOf: null, session: { person: { name: 'Nadia Quill' } } });
    expect(opened.cookies).toHaveLength(1);
  });

  test('open alone where the shop says so', async () => {
    const { code } = (await issue()).body;
    expect((await technician.put('/api/badge-rule', { alone: true })).status).toBe(403);
    expect((await lead.put('/api/badge-rule', { alone: true })).body).toEqual({ alone: true });
    expect((await byBadge(code)).json()).toMatchObject({ session: { person: { name: 'Nadia Quill' } } });
    await lead.put('/api/badge-rule', { alone: false });
    expect((await byBadge(code)).json().session).toBeNull();
  });

  test('are void once a new one is issued or they are taken back, and their bearer is signed out', async () => {
    const first = (await issue()).body;
    const second = (await issue()).body;
    expect((await byBadge(first.code, '2468')).json().detail).toContain(`Badge ${first.number} was taken back`);
    const session = (await byBadge(second.code, '2468')).cookies[0]?.value ?? '';
    const gone = await lead.post(`/api/badges/${second.id}/revoke`, { reason: 'lost' });
    expect(gone.body).toMatchObject({ number: second.number, person: { name: 'Nadia Quill' } });
    expect((await byBadge(second.code, '2468')).statusCode).toBe(401);
    const { statusCode } = await shop.app.inject({ url: '/api/session', cookies: { crosshatch_session: session } });
    expect(statusCode).toBe(401);
    expect((await lead.post(`/api/badges/${second.id}/revoke`, { reason: 'lost' })).status).toBe(409);
    await expect(shop.sql`update badge set revoked_at = null, revoked_by_id = null`).rejects.toThrow(/for good/);
  });

  test('are printed by their code for those who may set up alone, and the code is in no letters on them', async () => {
    const { code, number } = (await issue()).body;
    const drawing = { labels: [{ kind: 'badge', code }], stock: 'card-85.6x54' };
    expect((await clerk.post('/api/labels/drawings', drawing)).status).toBe(403);
    const { body } = await lead.post('/api/labels/drawings', drawing);
    expect(body.items[0]).toMatchObject({ kind: 'badge', name: 'Nadia Quill', code: null });
    expect(body.items[0].svg).toContain(`badge ${number}`);
    expect(body.items[0].svg.replace(/\s/g, '')).not.toContain(code.slice(5, 12));
    const wrong = await lead.post('/api/labels/drawings', {
      ...drawing,
      labels: [{ kind: 'badge', code: `${code.slice(0, -1)}!` }],
    });
    expect(wrong.body.errors[0].pointer).toBe('/labels/0/code');
  });

  test('guessed from one address close the door for a while', async () => {
    const guess = () => byBadge(writeCode({ kind: 'badge', mark: 'Q7', serial: '0000000000000000' }));
    const tries = await Promise.all(Array.from({ length: 44 }, guess));
    expect(tries.filter(({ statusCode }) => statusCode === 429).length).toBeGreaterThan(0);
    expect(tries.find(({ statusCode }) => statusCode === 401)?.json().detail).toContain('not known here');
  });
});

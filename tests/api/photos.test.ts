import { createHash } from 'node:crypto';
import { readdirSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import type { AddressInfo } from 'node:net';
import exifr from 'exifr';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { openDatabase } from '#platform/database/client.ts';
import { openFileStore } from '#platform/files/store.ts';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { buildApp } from '../../server/app.ts';
import { removeDiscarded } from '../../server/features/photos/kept-service.ts';
import { bomb, jpeg, pdf, phonePicture, plainPicture } from '../support/pictures.ts';
import { insertStrip } from '../support/procedures.ts';
import { openShop, type Shop, type StaffName, takeIn } from '../support/shop.ts';
import { filesOf, testConfig } from '../support/test-config.ts';

let shop: Shop;
let jobId: string;
let engineId: string;
const tokens = new Map<StaffName, string>();
beforeAll(async () => {
  shop = await openShop();
  ({ jobId, engineId } = await takeIn(shop, { serial: 'H355-801' }));
  for (const name of ['technician', 'clerk', 'writer', 'lead', 'colleague'] as const) {
    const { token } = await startSession(shop.sql, { personId: shop.people[name], terminalId: undefined });
    tokens.set(name, token);
  }
});
afterAll(() => shop.close());

interface Sending {
  readonly type?: string;
  readonly query?: Record<string, string>;
  readonly as?: StaffName;
  readonly key?: string;
  readonly job?: string;
  readonly app?: Shop['app'];
}

async function sendPhoto(file: Buffer, { type = 'image/jpeg', query = {}, as = 'technician', ...more }: Sending = {}) {
  const reply = await (more.app ?? shop.app).inject({
    method: 'POST',
    url: `/api/jobs/${more.job ?? jobId}/photos?${new URLSearchParams(query)}`,
    payload: file,
    headers: { 'content-type': type, 'idempotency-key': more.key ?? crypto.randomUUID() },
    cookies: { [SESSION_COOKIE]: tokens.get(as) ?? '' },
  });
  return { status: reply.statusCode, body: reply.json() };
}

async function fetchFile(url: string, as: StaffName = 'technician', headers = {}) {
  return shop.app.inject({ method: 'GET', url, headers, cookies: { [SESSION_COOKIE]: tokens.get(as) ?? '' } });
}

const listed = async () => (await shop.as.technician.get(`/api/engines/${engineId}/photos`)).body;
const countOf = async () => {
  const [row] =
    await shop.sql`select (select count(*)::int from photo) as photos, (select count(*)::int from event) as events`;
  return { ...row, files: storedFiles().length };
};
function storedFiles(): string[] {
  try {
    return readdirSync(filesOf(shop.url), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map(({ name }) => name);
  } catch {
    return [];
  }
}

describe('a photo that is kept', () => {
  test('stands upright without its metadata: neither place nor phone is in what the server gives out', async () => {
    const original = await phonePicture();
    expect(await exifr.gps(original)).toMatchObject({ latitude: expect.closeTo(59.908, 2) });
    const { status, body } = await sendPhoto(original, { query: { caption: 'Scored' } });
    expect(status, JSON.stringify(body)).toBe(201);
    expect(body).toMatchObject({ type: 'image/jpeg', width: 300, height: 400, caption: 'Scored', of: { kind: 'job' } });
    expect(body.takenAt).toBe('2026-11-20T08:30:00Z');
    for (const part of ['content', 'thumbnail', 'thumbnail?size=large']) {
      const { rawPayload } = await fetchFile(`/api/photos/${body.id}/${part}`);
      expect(await exifr.gps(rawPayload).catch(() => undefined)).toBeUndefined();
      expect(rawPayload.includes(Buffer.from('Phone of a test'))).toBe(false);
      expect(rawPayload.includes(Buffer.from('Exif'))).toBe(false);
    }
    // Turned by a quarter, the dark left half is the upper one.
    const { rawPayload } = await fetchFile(`/api/photos/${body.id}/content`);
    const { data } = await sharp(rawPayload).greyscale().raw().toBuffer({ resolveWithObject: true });
    expect(data[300 * 20 + 150]).toBeLessThan(80);
    expect(data[300 * 380 + 150]).toBeGreaterThan(200);
  });

  test('is named by the hash of what is stored, and one event tells of it', async () => {
    const { body } = await sendPhoto(await jpeg(500, 200));
    const reply = await fetchFile(`/api/photos/${body.id}/content`);
    const hash = createHash('sha256').update(reply.rawPayload).digest('hex');
    expect(storedFiles()).toEqual(expect.arrayContaining([hash, `${hash}.small`, `${hash}.large`]));
    expect(storedFiles().filter((name) => name.endsWith('.part'))).toEqual([]);
    const events = await shop.sql`select data from event where kind = 'photo.added' and data->>'photo' = ${body.id}`;
    expect(events).toHaveLength(1);
    const again = await fetchFile(`/api/photos/${body.id}/content`, 'technician', {
      'if-none-match': reply.headers.etag,
    });
    expect(again.statusCode).toBe(304);
    expect(reply.headers).toMatchObject({
      'content-type': 'image/jpeg',
      'cache-control': 'private, max-age=31536000, immutable',
      'x-content-type-options': 'nosniff',
    });
    expect(reply.headers['content-security-policy']).toContain('sandbox');
  });

  test('sent again with its key is kept once; another picture under that key is refused', async () => {
    const key = crypto.randomUUID();
    const file = await jpeg(321, 200);
    const first = await sendPhoto(file, { key });
    const before = await countOf();
    expect(await sendPhoto(file, { key })).toEqual(first);
    expect(await countOf()).toEqual(before);
    expect((await sendPhoto(await jpeg(322, 200), { key })).status).toBe(422);
  });

  test('the same picture twice is two photos on one file', async () => {
    const file = await jpeg(333, 222);
    await sendPhoto(file, { query: { caption: 'once' } });
    const files = storedFiles().length;
    const { body } = await sendPhoto(file, { query: { caption: 'twice' } });
    expect(storedFiles()).toHaveLength(files);
    expect((await listed()).items.map(({ caption }: { caption: string }) => caption)).toEqual(
      expect.arrayContaining(['once', 'twice']),
    );
    expect(body.bytes).toBeGreaterThan(0);
  });

  test('PNG and WebP are kept as what they are; a PDF as a PDF, opened in a tab that may do nothing', async () => {
    expect((await sendPhoto(await plainPicture().png().toBuffer())).body.type).toBe('image/png');
    expect((await sendPhoto(await plainPicture().webp().toBuffer())).body.type).toBe('image/webp');
    const paper = pdf();
    const { body } = await sendPhoto(paper, { type: 'application/pdf', query: { name: 'Häuser "1".pdf' } });
    expect(body).toMatchObject({ type: 'application/pdf', width: null });
    const reply = await fetchFile(`/api/photos/${body.id}/content`);
    expect(reply.rawPayload.toString('latin1')).toMatch(/^%PDF-1\.4\n[\s\S]*%%EOF\s*$/);
    expect(String(reply.headers['content-disposition'])).toMatch(/^inline; filename="H_user/);
    expect(reply.headers).toMatchObject({
      'content-type': 'application/pdf',
      'x-content-type-options': 'nosniff',
      'content-security-policy': "default-src 'none'; frame-ancestors 'none'; sandbox",
    });
    expect((await fetchFile(`/api/photos/${body.id}/thumbnail`)).statusCode).toBe(404);
  });
});

describe('what is no photo', () => {
  const refused = async (file: Buffer, status: number, words: RegExp, sending: Sending = {}) => {
    const before = await countOf();
    const answer = await sendPhoto(file, sending);
    expect(answer.status, JSON.stringify(answer.body)).toBe(status);
    expect(answer.body.detail).toMatch(words);
    expect(await countOf()).toEqual(before);
  };

  test('is told by its content, whatever its name or type says, and leaves neither row, event nor file', async () => {
    await refused(Buffer.from('just words'), 415, /neither a JPEG, PNG or WebP/);
    await refused(Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>'), 415, /neither/, { type: 'image/png' });
    await refused(await plainPicture().gif().toBuffer(), 415, /neither/, { type: 'image/gif' });
    await refused(Buffer.from('MZ\0\0program'), 415, /neither/, { query: { name: 'bore.jpg' } });
    await refused(Buffer.alloc(0), 415, /empty/);
    await refused(Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1'), 415, /HEIC/);
    await refused(Buffer.from('{"a":1}'), 415, /neither/, { type: 'application/json' });
  });

  test('cut off or damaged is refused', async () => {
    const whole = await jpeg(900, 700);
    await refused(whole.subarray(0, whole.length / 2), 422, /damaged or was cut off/);
    await refused(whole.subarray(0, 20), 422, /damaged or was cut off/);
    const png = await plainPicture(800, 600).png().toBuffer();
    await refused(png.subarray(0, png.length - 200), 422, /damaged or was cut off/);
    await refused(pdf().subarray(0, 120), 422, /has no end/, { type: 'application/pdf' });
    await refused(pdf(1, '/OpenAction <</S /JavaScript /JS (x)>>'), 422, /scripts/);
    await refused(pdf(5000), 413, /5000 pages/);
  });

  test('a picture with something hidden behind its end comes out without it', async () => {
    const hidden = Buffer.concat([await jpeg(), Buffer.from('PK\x03\x04<script>alert(1)</script>')]);
    const { status, body } = await sendPhoto(hidden);
    expect(status).toBe(201);
    const { rawPayload } = await fetchFile(`/api/photos/${body.id}/content`);
    expect(rawPayload.includes(Buffer.from('<script>'))).toBe(false);
    await refused(Buffer.concat([pdf(), Buffer.from('PK\x03\x04zip')]), 422, /something follows it/);
  });

  test('a few kilobytes that unpack to a wall of pixels are refused before they are unpacked', async () => {
    const small = bomb(12_000);
    expect(small.length).toBeLessThan(100_000);
    await refused(small, 413, /more than 64 million pixels/);
  });

  test('200 MB are cut off: over a real line, declared or not', async () => {
    await shop.app.listen({ port: 0, host: '127.0.0.1' }).catch(() => undefined);
    const { port } = shop.app.server.address() as AddressInfo;
    const before = await countOf();
    const send = (declared: boolean) =>
      new Promise<number | string>((resolve) => {
        const sending = httpRequest(
          {
            port,
            host: '127.0.0.1',
            method: 'POST',
            path: `/api/jobs/${jobId}/photos`,
            headers: {
              'content-type': 'image/jpeg',
              'idempotency-key': crypto.randomUUID(),
              cookie: `${SESSION_COOKIE}=${tokens.get('technician')}`,
              ...(declared ? { 'content-length': 200 * 1_048_576 } : {}),
            },
          },
          (reply) => {
            resolve(reply.statusCode ?? 0);
            sending.destroy();
          },
        );
        sending.on('error', (error) => resolve(error.message));
        const lump = Buffer.alloc(1_048_576, 0xff);
        let sent = 0;
        const go = () => {
          while (sent < 200 && !sending.destroyed) {
            sent += 1;
            if (!sending.write(lump)) return void sending.once('drain', go);
          }
          sending.end();
        };
        go();
      });
    expect(await send(true)).toBe(413);
    // Undeclared it ends in the middle: a sender that goes on writing may meet the closed line before the answer.
    expect([413, 'write EPIPE', 'read ECONNRESET', 'write ECONNRESET']).toContain(await send(false));
    expect(await countOf()).toEqual(before);
  });
});

describe('what a photo shows', () => {
  test('one thing of its own job: a step, a piece, a place of the sheet', async () => {
    const strip = await insertStrip(shop.sql, shop.sheet.familyId);
    await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const run = (await shop.as.technician.post(`/api/jobs/${jobId}/procedure-runs`, { versionId: strip.versionId }))
      .body.id;
    const [step = ''] = Object.values(strip.steps);
    const file = await jpeg(410, 300);
    const kept = await sendPhoto(file, { query: { run, step, caption: 'Before it comes off' } });
    expect(kept.body.of).toMatchObject({ kind: 'step', id: step, words: expect.stringMatching(/^Step 1, /) });
    const opening = (await shop.as.technician.post(`/api/jobs/${jobId}/openings`)).body.id;
    const tray = (await shop.as.technician.post(`/api/jobs/${jobId}/trays`, { name: 'Dowels' })).body.id;
    const off = await shop.as.technician.post(`/api/openings/${opening}/pieces/off`, {
      pieces: [{ byHand: { name: 'dowel', expected: 3 }, count: 3 }],
      trayId: tray,
    });
    const piece = off.body.pieces[0].id;
    const ofPiece = await sendPhoto(file, { query: { piece, caption: 'three dowels' } });
    expect(ofPiece.body.of).toMatchObject({ kind: 'piece', words: 'dowel' });
    expect((await sendPhoto(file, { query: { place: 'cylinder' } })).body.of).toMatchObject({ kind: 'place' });

    const other = await takeIn(shop, { serial: 'H355-802' });
    const before = await countOf();
    expect((await sendPhoto(file, { job: other.jobId, query: { piece } })).status).toBe(422);
    expect((await sendPhoto(file, { job: other.jobId, query: { run, step } })).status).toBe(422);
    expect((await sendPhoto(file, { query: { place: 'no-such-place' } })).status).toBe(422);
    expect((await sendPhoto(file, { query: { step } })).status).toBe(400);
    expect((await sendPhoto(file, { query: { piece, place: 'cylinder' } })).status).toBe(400);
    expect((await sendPhoto(file, { job: crypto.randomUUID() })).status).toBe(404);
    expect((await sendPhoto(file, { query: { takenAt: '2031-01-01T00:00:00Z' } })).status).toBe(422);
    expect(await countOf()).toEqual(before);

    // The tray goes over, and its receiver is to count it blind: the picture of what lies in it waits.
    await shop.as.technician.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.colleague,
      placeId: shop.bays.rack,
      includeEngine: false,
      trayIds: [tray],
    });
    const seenBy = async (as: 'technician' | 'colleague') =>
      (await shop.as[as].get(`/api/engines/${engineId}/photos`)).body.items.map(({ id }: { id: string }) => id);
    expect(await seenBy('technician')).toContain(ofPiece.body.id);
    expect(await seenBy('colleague')).not.toContain(ofPiece.body.id);
    expect((await fetchFile(`/api/photos/${ofPiece.body.id}/content`, 'colleague')).statusCode).toBe(403);
    const told = JSON.stringify((await shop.as.colleague.get(`/api/engines/${engineId}/events?limit=100`)).body);
    expect(told).not.toContain('three dowels');
  });
});

describe('removing a photo', () => {
  test('takes a lead and a reason; it is shown nowhere, and the timeline goes on telling why', async () => {
    const { body } = await sendPhoto(await jpeg(444, 300));
    const remove = (as: StaffName, reason = 'Shows another engine') =>
      shop.as[as].post(`/api/photos/${body.id}/remove`, { reason });
    expect((await remove('technician')).status).toBe(403);
    expect((await remove('lead', ' ')).status).toBe(400);
    expect((await shop.as.lead.post(`/api/photos/${body.id}/discard`, { reason: 'x' })).status).toBe(422);
    expect((await remove('lead')).status).toBe(200);
    expect((await remove('lead')).status).toBe(409);
    const { items, removed } = await listed();
    expect(items.map(({ id }: { id: string }) => id)).not.toContain(body.id);
    expect(removed).toContainEqual(
      expect.objectContaining({ id: body.id, reason: 'Shows another engine', kept: true }),
    );
    expect((await fetchFile(`/api/photos/${body.id}/content`)).statusCode).toBe(404);
    expect((await fetchFile(`/api/photos/${body.id}/thumbnail`)).statusCode).toBe(404);
    const events = (await shop.as.writer.get(`/api/engines/${engineId}/events`)).body.items;
    expect(events[0]).toMatchObject({ kind: 'photo.removed', data: { reason: 'Shows another engine' } });
  });

  test('its content leaves the store by an act of its own, and not while another photo shows it', async () => {
    const file = await jpeg(455, 300);
    const [one, two] = [await sendPhoto(file), await sendPhoto(file)];
    const discard = (id: string) =>
      shop.as.lead.post(`/api/photos/${id}/discard`, { reason: 'The owner asked for it' });
    await shop.as.lead.post(`/api/photos/${one.body.id}/remove`, { reason: 'A face is in it' });
    expect((await discard(one.body.id)).status).toBe(422);
    expect((await fetchFile(`/api/photos/${two.body.id}/content`)).statusCode).toBe(200);
    await shop.as.lead.post(`/api/photos/${two.body.id}/remove`, { reason: 'A face is in it' });
    const files = storedFiles().length;
    expect((await discard(two.body.id)).status).toBe(200);
    expect(storedFiles()).toHaveLength(files - 3);
    expect((await listed()).removed.find(({ id }: { id: string }) => id === one.body.id).kept).toBe(false);
    // Taken again later, it is there again.
    const again = await sendPhoto(file);
    expect((await fetchFile(`/api/photos/${again.body.id}/content`)).statusCode).toBe(200);
  });

  test('a discard that is not kept leaves the file; asked again, it goes', async () => {
    const { body } = await sendPhoto(await jpeg(456, 300));
    await shop.as.lead.post(`/api/photos/${body.id}/remove`, { reason: 'A face is in it' });
    const files = storedFiles().length;
    const discard = () => shop.as.lead.post(`/api/photos/${body.id}/discard`, { reason: 'The owner asked for it' });
    await shop.sql.unsafe(`
      create function no_keys() returns trigger language plpgsql as $$ begin raise exception 'the disk is full'; end $$;
      create trigger no_keys before insert on idempotency_key for each row execute function no_keys()`);
    expect((await discard()).status).toBe(500);
    await shop.sql`drop trigger no_keys on idempotency_key`;
    expect(storedFiles()).toHaveLength(files);
    expect((await discard()).status).toBe(200);
    expect(storedFiles()).toHaveLength(files - 3);
  });

  test('added again while it was being discarded, the content stays', async () => {
    const file = await jpeg(457, 300);
    const { body } = await sendPhoto(file);
    await shop.as.lead.post(`/api/photos/${body.id}/remove`, { reason: 'A face is in it' });
    await shop.as.lead.post(`/api/photos/${body.id}/discard`, { reason: 'The owner asked for it' });
    const again = await sendPhoto(file);
    await removeDiscarded(shop.sql, openFileStore(filesOf(shop.url)), body.id);
    expect((await fetchFile(`/api/photos/${again.body.id}/content`)).statusCode).toBe(200);
  });

  test('a discard waits for the engine before it takes the content: adding and discarding never wait for each other', async () => {
    const file = await jpeg(458, 300);
    const { body } = await sendPhoto(file);
    await shop.as.lead.post(`/api/photos/${body.id}/remove`, { reason: 'A face is in it' });
    const holder = await shop.sql.reserve();
    try {
      await holder`begin`;
      await holder`select from engine where id = ${engineId} for update`;
      const discarded = shop.as.lead.post(`/api/photos/${body.id}/discard`, { reason: 'The owner asked for it' });
      const waiting = async () =>
        (
          await shop.sql`
          select from pg_stat_activity where datname = current_database() and wait_event_type = 'Lock'
            and query ilike '%from engine where id = % for update%'`
        ).length;
      await expect.poll(waiting, { timeout: 8000 }).toBe(1);
      const [row] = await shop.sql<{ hash: string }[]>`select hash from photo where id = ${body.id}`;
      const [lock] = await holder<{ free: boolean }[]>`
        select pg_try_advisory_xact_lock(hashtextextended(${`file ${row?.hash ?? ''}`}, 0)) as free`;
      expect(lock?.free).toBe(true);
      await holder`commit`;
      expect((await discarded).status).toBe(200);
    } finally {
      await holder`rollback`;
      holder.release();
    }
  });

  test('rows are never rewritten, not even in the database', async () => {
    await expect(shop.sql`update photo set caption = 'better'`).rejects.toThrow();
    await expect(shop.sql`delete from photo_removal`).rejects.toThrow();
  });
});

describe('who may', () => {
  test('everybody signed in takes and sees photos; nobody else does', async () => {
    const { body } = await sendPhoto(await jpeg(466, 300), { as: 'clerk' });
    expect((await fetchFile(`/api/photos/${body.id}/content`, 'writer')).statusCode).toBe(200);
    expect((await shop.app.inject(`/api/photos/${body.id}/content`)).statusCode).toBe(401);
    const bare = await shop.app.inject({ method: 'POST', url: `/api/jobs/${jobId}/photos`, payload: await jpeg() });
    expect(bare.statusCode).toBe(401);
    expect((await shop.as.clerk.get('/api/photos/check')).status).toBe(403);
  });

  test('whoever took it, the bench and the counter write under it; the newest words stand', async () => {
    const { body } = await sendPhoto(await jpeg(477, 300));
    const note = (as: StaffName, caption: string, onSheet = false) =>
      shop.as[as].post(`/api/photos/${body.id}/notes`, { caption, onSheet });
    expect((await note('clerk', 'mine?')).status).toBe(403);
    expect((await note('technician', 'Scored')).status).toBe(200);
    expect((await note('writer', 'Scored on the exhaust side', true)).body).toMatchObject({
      caption: 'Scored on the exhaust side',
      onSheet: true,
    });
    const own = await sendPhoto(await jpeg(478, 300), { as: 'clerk' });
    expect(
      (await shop.as.clerk.post(`/api/photos/${own.body.id}/notes`, { caption: 'x', onSheet: false })).status,
    ).toBe(200);
    const paper = await sendPhoto(pdf());
    expect((await shop.as.lead.post(`/api/photos/${paper.body.id}/notes`, { caption: '', onSheet: true })).status).toBe(
      422,
    );
  });
});

describe('the store', () => {
  test('is shared: what one process keeps, another gives out', async () => {
    const db = openDatabase(shop.url);
    const other = await buildApp({ config: testConfig(shop.url), db });
    const { body } = await sendPhoto(await jpeg(488, 300), { app: other });
    expect((await fetchFile(`/api/photos/${body.id}/content`)).statusCode).toBe(200);
    const file = await jpeg(489, 300);
    const both = await Promise.all([sendPhoto(file), sendPhoto(file, { app: other }), sendPhoto(file)]);
    expect(both.map(({ status }) => status)).toEqual([201, 201, 201]);
    await other.close();
    await db.close();
  });

  test('is held against the rows: a file that is gone and one that nobody names are both told', async () => {
    const check = async () => (await shop.as.lead.get('/api/photos/check')).body;
    expect(await check()).toMatchObject({ missing: [], spare: [] });
    const { body } = await sendPhoto(await jpeg(499, 300));
    const [row] = await shop.sql`select hash from photo where id = ${body.id}`;
    const { openFileStore } = await import('#platform/files/store.ts');
    const store = openFileStore(filesOf(shop.url));
    await store.remove(row?.hash);
    const stray = 'ab'.repeat(32);
    await store.put(stray, { content: Buffer.from('stray') });
    expect(await check()).toMatchObject({ missing: [{ photos: [{ photoId: body.id }] }], changed: [], spare: [stray] });
    expect((await fetchFile(`/api/photos/${body.id}/content`)).statusCode).toBe(404);
  });
});

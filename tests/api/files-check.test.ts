import { mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FilesCheck } from '#contracts/files-check.ts';
import { checkFiles } from '#features/photos/check-service.ts';
import { type FileStore, openFileStore } from '#platform/files/store.ts';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { contentFile, flipByte } from '../support/files.ts';
import { jpeg } from '../support/pictures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { filesOf } from '../support/test-config.ts';

let shop: Shop;
let jobId: string;
let engineId: string;
let token: string;
let leadToken: string;
beforeAll(async () => {
  shop = await openShop();
  ({ jobId, engineId } = await takeIn(shop, { serial: 'H355-F20' }));
  ({ token } = await startSession(shop.sql, { personId: shop.people.technician, terminalId: undefined }));
  ({ token: leadToken } = await startSession(shop.sql, { personId: shop.people.lead, terminalId: undefined }));
});
afterAll(() => shop.close());

let widths = 300;
/** Another picture each time; its hash, and the file that it lies in. */
async function keep(query: Record<string, string> = {}) {
  widths += 1;
  const sent = await shop.app.inject({
    method: 'POST',
    url: `/api/jobs/${jobId}/photos?${new URLSearchParams(query)}`,
    payload: await jpeg(widths, 200),
    headers: { 'content-type': 'image/jpeg', 'idempotency-key': crypto.randomUUID() },
    cookies: { [SESSION_COOKIE]: token },
  });
  expect(sent.statusCode, sent.body).toBe(201);
  const { id } = sent.json();
  const [row] = await shop.sql<{ hash: string }[]>`select hash from photo where id = ${id}`;
  const hash = row?.hash ?? '';
  return { id, hash, file: contentFile(filesOf(shop.url), hash) };
}

const check = async (query = ''): Promise<FilesCheck> => (await shop.as.lead.get(`/api/photos/check${query}`)).body;

describe('the check of the smaller pictures', () => {
  const faultsOf = async (hash: string) =>
    (await check()).smaller.filter((one) => one.hash === hash).map(({ part, fault }) => [part, fault]);

  test('finds a flipped bit in one, a lost one and a cut one, and says of which photo', async () => {
    const { id, hash, file } = await keep({ place: 'cylinder' });
    expect(await faultsOf(hash)).toEqual([]);
    flipByte(`${file}.small`);
    rmSync(`${file}.large`);
    expect(await faultsOf(hash)).toEqual([
      ['small', 'other bytes'],
      ['large', 'missing'],
    ]);
    const { changed, smaller } = await check();
    expect(changed).toEqual([]);
    expect(smaller.find((one) => one.hash === hash)?.photos).toMatchObject([{ photoId: id, of: { id: 'cylinder' } }]);
    await shop.as.lead.post(`/api/photos/${id}/remove`, { reason: 'Spoilt' });
    await shop.as.lead.post(`/api/photos/${id}/discard`, { reason: 'Spoilt' });
    expect(await faultsOf(hash)).toEqual([]);
  });

  test('of a photo whose smaller hashes were never kept, tells one that is no whole picture any more', async () => {
    const { id, hash, file } = await keep();
    await shop.sql`delete from file_part where hash = ${hash}`;
    expect(await faultsOf(hash)).toEqual([]);
    truncateSync(`${file}.small`, 40);
    expect(await faultsOf(hash)).toEqual([['small', 'unreadable']]);
    await shop.as.lead.post(`/api/photos/${id}/remove`, { reason: 'Spoilt' });
    await shop.as.lead.post(`/api/photos/${id}/discard`, { reason: 'Spoilt' });
  });
});

describe('the check of the files', () => {
  test('finds one flipped bit, and says by which engine, job and place the file is shown', async () => {
    const whole = await keep();
    const before = await check();
    expect(before).toMatchObject({ missing: [], changed: [], spare: [] });
    const { id, hash, file } = await keep({ place: 'cylinder', caption: 'Scored' });
    flipByte(file);
    const after = await check();
    expect(after.files).toBe(before.files + 1);
    expect(after.bytes).toBeGreaterThan(before.bytes);
    expect(after.changed).toMatchObject([
      {
        hash,
        fault: 'other bytes',
        photos: [
          {
            photoId: id,
            engine: { id: engineId, serial: 'H355-F20' },
            job: { id: jobId },
            of: { kind: 'place' },
            caption: 'Scored',
          },
        ],
      },
    ]);
    expect([after.missing, after.spare]).toEqual([[], []]);
    flipByte(file);
    expect((await check()).changed, 'put right, nothing is said of it').toEqual([]);
    expect(whole.hash).not.toBe(hash);
  });

  test('finds a file cut off and one that can’t be read; what lies there as a folder is no content', async () => {
    const short = await keep();
    truncateSync(short.file, 100);
    const blocked = await keep();
    rmSync(blocked.file);
    mkdirSync(blocked.file);
    const { changed } = await check();
    expect(new Map(changed.map(({ hash, fault }) => [hash, fault]))).toEqual(
      new Map([
        [short.hash, 'other bytes'],
        [blocked.hash, 'unreadable'],
      ]),
    );
    rmSync(blocked.file, { recursive: true });
    expect((await check()).missing).toMatchObject([{ hash: blocked.hash, photos: [{ photoId: blocked.id }] }]);
    for (const { id } of [short, blocked]) await shop.as.lead.post(`/api/photos/${id}/remove`, { reason: 'Spoilt' });
    const removed = await check();
    expect(removed.missing, 'nobody is shown it').toEqual([]);
    expect(removed.changed, 'it is still kept as it was').toEqual([
      { hash: short.hash, fault: 'other bytes', photos: [] },
    ]);
    await shop.as.lead.post(`/api/photos/${short.id}/discard`, { reason: 'Spoilt' });
  });

  test('asked for a part of the folders after the other, says the same as asked for all of them', async () => {
    for (let count = 0; count < 6; count += 1) flipByte((await keep()).file);
    const all = await check();
    expect(all.changed.length).toBeGreaterThanOrEqual(6);
    const parts = [];
    for (const digit of '0123456789abcdef') parts.push(await check(`?from=${digit}0&to=${digit}f`));
    expect(parts.flatMap(({ changed }) => changed)).toEqual(all.changed);
    for (const sum of ['files', 'bytes'] as const) {
      expect(parts.reduce((total, part) => total + part[sum], 0)).toBe(all[sum]);
    }
    for (const wrong of ['?from=zz', '?from=0&to=f', '?from=80&to=7f']) {
      expect((await shop.as.lead.get(`/api/photos/check${wrong}`)).status, wrong).toBe(400);
    }
    expect((await shop.as.technician.get('/api/photos/check')).status).toBe(403);
  });

  test('doesn’t name the piece of a photo to a lead who is yet to count it', async () => {
    await shop.as.technician.post(`/api/engines/${engineId}/take`, { bayId: shop.bays.rack, trayIds: [] });
    const { body: opening } = await shop.as.technician.post(`/api/jobs/${jobId}/openings`);
    const { body: tray } = await shop.as.technician.post(`/api/jobs/${jobId}/trays`, { name: 'Dowels' });
    const taken = await shop.as.technician.post(`/api/openings/${opening.id}/pieces/off`, {
      pieces: [{ byHand: { name: 'dowel', expected: 3 }, count: 3 }],
      trayId: tray.id,
    });
    expect(taken.status, JSON.stringify(taken.body)).toBe(200);
    const { id, hash, file } = await keep({ piece: taken.body.pieces[0].id, caption: 'All four of them' });
    flipByte(file);
    const shownAs = async () =>
      (await check()).changed.find((one) => one.hash === hash)?.photos.find(({ photoId }) => photoId === id);
    expect(await shownAs()).toMatchObject({ of: { kind: 'piece' }, caption: 'All four of them' });
    const offer = await shop.as.technician.post(`/api/jobs/${jobId}/handovers`, {
      receiverId: shop.people.lead,
      placeId: shop.bays.rack,
      includeEngine: false,
      trayIds: [tray.id],
      looseWords: '',
    });
    expect(offer.status, JSON.stringify(offer.body)).toBe(201);
    expect(await shownAs()).toMatchObject({ of: null, caption: '', name: '', engine: { serial: 'H355-F20' } });
  });
});

/** A store of its own with one long file, which takes a while to read. */
function longFile(bytes: number) {
  const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-long-'));
  const hash = 'c'.repeat(64);
  const file = contentFile(folder, hash);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, '');
  truncateSync(file, bytes);
  return { folder, file, hash, store: openFileStore(folder), remove: () => rmSync(folder, { recursive: true }) };
}

/** Says which contents are read, and how many at a time. */
function watched(store: FileStore) {
  const seen = { begun: 0, atOnce: 0, most: 0 };
  const digest: FileStore['digest'] = async (hash, signal) => {
    seen.begun += 1;
    seen.atOnce += 1;
    seen.most = Math.max(seen.most, seen.atOnce);
    try {
      return await store.digest(hash, signal);
    } finally {
      seen.atOnce -= 1;
    }
  };
  return { seen, store: { ...store, digest } };
}

describe('while the files are read', () => {
  test('others are answered, and a long file is never held whole', async () => {
    const size = 400_000_000;
    const long = longFile(size);
    let done = false;
    const before = process.memoryUsage();
    const checking = checkFiles({ sql: shop.sql, store: long.store }).then((checked) => {
      done = true;
      return checked;
    });
    let answeredMeanwhile = 0;
    let most = 0;
    while (!done) {
      await new Promise((later) => setTimeout(later, 2));
      const { arrayBuffers, external } = process.memoryUsage();
      most = Math.max(most, arrayBuffers + external - before.arrayBuffers - before.external);
      expect((await shop.app.inject('/healthz')).statusCode).toBe(200);
      if (!done) answeredMeanwhile += 1;
    }
    expect(await checking).toMatchObject({ files: 1, bytes: size, spare: [long.hash] });
    expect(answeredMeanwhile).toBeGreaterThan(20);
    expect(most).toBeLessThan(size / 4);
    long.remove();
  });

  test('no more than four are read at a time, and none any more once it is called off', async () => {
    const folder = mkdtempSync(path.join(tmpdir(), 'crosshatch-many-'));
    const store = openFileStore(folder);
    for (let count = 10; count < 50; count += 1) {
      await store.put(`${count}`.repeat(32), { content: Buffer.alloc(200_000) });
    }
    const all = watched(store);
    expect(await checkFiles({ sql: shop.sql, store: all.store })).toMatchObject({ files: 40 });
    expect(all.seen.most).toBe(4);
    const calling = new AbortController();
    const some = watched(store);
    const digest: FileStore['digest'] = (hash, signal) => {
      if (some.seen.begun === 8) calling.abort();
      return some.store.digest(hash, signal);
    };
    const called = checkFiles({ sql: shop.sql, store: { ...store, digest } }, { signal: calling.signal });
    await expect(called).rejects.toThrow(/abort/i);
    await new Promise((later) => setTimeout(later, 50));
    expect(some.seen.begun).toBeLessThan(14);
    expect(some.seen.atOnce).toBe(0);
    rmSync(folder, { recursive: true });
  });

  test('whoever hangs up ends it', async () => {
    // A sparse file in the shop's own folder, so long that the check can't be through before the caller hangs up.
    const file = contentFile(filesOf(shop.url), 'd'.repeat(64));
    mkdirSync(path.dirname(file), { recursive: true });
    writeFileSync(file, '');
    truncateSync(file, 60_000_000_000);
    if (!shop.app.server.listening) await shop.app.listen({ port: 0, host: '127.0.0.1' });
    const { port } = shop.app.server.address() as AddressInfo;
    const ended = new Promise<void>((resolve) => {
      const asking = httpRequest({
        ...{ port, host: '127.0.0.1', path: '/api/photos/check?from=dd&to=dd' },
        headers: { cookie: `${SESSION_COOKIE}=${leadToken}` },
      });
      asking.on('error', () => resolve());
      asking.end();
      setTimeout(() => asking.destroy(), 400);
    });
    await ended;
    await new Promise((later) => setTimeout(later, 300));
    const cpu = process.cpuUsage();
    await new Promise((later) => setTimeout(later, 600));
    const { user, system } = process.cpuUsage(cpu);
    // Reading on would keep the process busy nearly all of the time.
    expect((user + system) / 600_000).toBeLessThan(0.3);
    rmSync(file);
  }, 60_000);
});

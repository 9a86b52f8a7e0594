import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openFileStore } from '#platform/files/store.ts';
import { SESSION_COOKIE, startSession } from '#platform/identity/sessions.ts';
import { files } from '../../server/admin/files.ts';
import { contentFile, flipByte } from '../support/files.ts';
import { jpeg } from '../support/pictures.ts';
import { openShop, type Shop, takeIn } from '../support/shop.ts';
import { testConfig } from '../support/test-config.ts';

let shop: Shop;
beforeAll(async () => {
  shop = await openShop();
});
afterAll(() => shop.close());

async function heard(filesFolder = testConfig(shop.url).filesFolder) {
  const lines: string[] = [];
  const config = { ...testConfig(shop.url), filesFolder };
  const code = await files.run({ sql: shop.sql, config, say: (line) => lines.push(line) });
  return { code, lines };
}

test('the operator is told which photo has no file and which file nothing names, and nothing is changed', async () => {
  const { jobId } = await takeIn(shop, { serial: 'H355-F1' });
  const { token } = await startSession(shop.sql, { personId: shop.people.technician, terminalId: undefined });
  const sent = await shop.app.inject({
    method: 'POST',
    url: `/api/jobs/${jobId}/photos`,
    payload: await jpeg(),
    headers: { 'content-type': 'image/jpeg', 'idempotency-key': crypto.randomUUID() },
    cookies: { [SESSION_COOKIE]: token },
  });
  const { id } = sent.json();
  const well = await heard();
  expect([well.code, well.lines.at(-1)]).toEqual([
    0,
    'Every photo has its file as it was stored, and every file its photo.',
  ]);

  const empty = mkdtempSync(path.join(tmpdir(), 'crosshatch-files-'));
  const lost = await heard(empty);
  expect([lost.code, lost.lines.length]).toEqual([1, 3]);
  expect(lost.lines[1]).toContain(`Photo ${id} (engine H355-F1, job `);
  const spare = 'a'.repeat(64);
  await openFileStore(empty).put(spare, { content: Buffer.from('nobody’s') });
  expect((await heard(empty)).lines).toContain(`File ${spare}: no photo names it.`);
  rmSync(empty, { recursive: true });

  const [row] = await shop.sql<{ hash: string }[]>`select hash from photo where id = ${id}`;
  const hash = row?.hash ?? '';
  flipByte(contentFile(testConfig(shop.url).filesFolder, hash));
  const flipped = await heard();
  expect([flipped.code, flipped.lines.length]).toEqual([1, 3]);
  expect(flipped.lines[1]).toMatch(new RegExp(`^Photo ${id} .*: the file ${hash} has other bytes than were stored.$`));
});

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openFileStore } from '#platform/files/store.ts';
import { loadDemoIfEmpty } from '../../prisma/demo/load.ts';
import { drawPictures } from '../../prisma/demo/photos.ts';
import { cloneDatabase, demoAnchor, type TestDatabase } from '../support/database.ts';

const filesFolder = mkdtempSync(path.join(tmpdir(), 'crosshatch-demo-files-'));
let shop: TestDatabase;
beforeAll(async () => {
  shop = await cloneDatabase();
  await loadDemoIfEmpty(shop.db, { anchor: demoAnchor, loopback: true, filesFolder });
}, 120_000);
afterAll(async () => {
  await shop.drop();
  rmSync(filesFolder, { recursive: true, force: true });
});

test('the demo’s photos say that they are drawings, and their files lie in the store', async () => {
  const photos = await shop.db.sql<
    { hash: string; caption: string; type: string }[]
  >`select hash, caption, type from photo`;
  expect(photos).toHaveLength(6);
  for (const { caption } of photos) expect(caption).toMatch(/^(Drawing, not a photo|Made up for the demo): /);
  const files = await openFileStore(filesFolder).hashes();
  expect([...files].toSorted()).toEqual(photos.map(({ hash }) => hash).toSorted());
  const events = await shop.db.sql`select from event where kind = 'photo.added'`;
  expect(events).toHaveLength(6);
});

test('one stands at a step that asks for it, and is all that the step needs', async () => {
  const steps = await shop.db.sql<{ title: string; noPhoto: string; onSheet: boolean }[]>`
    select s.title, m.no_photo as "noPhoto", s.photo <> '' as "onSheet"
    from step_photo p join photo f on f.id = p.photo_id join procedure_step s on s.id = p.step_id
    join step_mark_now m on m.run_id = p.run_id and m.step_id = p.step_id and m.mark = 'done'`;
  expect([...steps]).toEqual([{ title: 'Balancer on its mark', noPhoto: '', onSheet: true }]);
});

test('drawn twice they are the same, byte for byte', async () => {
  const [one, two] = [await drawPictures(), await drawPictures()];
  const hashes = ({ drawn, paper }: typeof one) => [...drawn.values(), paper].map(({ hash }) => hash);
  expect(hashes(one)).toEqual(hashes(two));
});

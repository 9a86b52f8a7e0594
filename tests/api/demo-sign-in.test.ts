import { hash, verify } from '@node-rs/argon2';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { loadDemoIfEmpty } from '../../prisma/demo/load.ts';
import { cloneDemoDatabase, demoAnchor, type TestDatabase } from '../support/database.ts';

let database: TestDatabase;
beforeEach(async () => {
  database = await cloneDemoDatabase();
});
afterEach(() => database.drop());

function startAgain(loopback: boolean): Promise<readonly string[] | undefined> {
  return loadDemoIfEmpty(database.db, { anchor: demoAnchor, loopback });
}

async function opens(name: string, pin: string): Promise<boolean> {
  const [row] = await database.db.sql<{ pinHash: string }[]>`
    select pin_hash as "pinHash" from person where name = ${name}`;
  return row !== undefined && verify(row.pinHash, pin);
}

test('a later start on this machine alone tells the known PINs again', async () => {
  const lines = await startAgain(true);
  expect(lines).toContainEqual(expect.stringMatching(/Nadia Quill +4404 +technician/));
  expect(await opens('Nadia Quill', '4404')).toBe(true);
});

test('once others can reach the service, the known PINs open nothing any more', async () => {
  const lines = (await startAgain(false)) ?? [];
  expect(await opens('Nadia Quill', '4404')).toBe(false);
  const told = /Nadia Quill +(\d{6})/.exec(lines.join('\n'))?.[1] ?? '';
  expect(await opens('Nadia Quill', told)).toBe(true);
});

test('the new PINs are told once', async () => {
  await startAgain(false);
  expect(await startAgain(false)).toBeUndefined();
  expect(await startAgain(true)).toBeUndefined();
});

test('a PIN that somebody chose stays as it is', async () => {
  const chosen = await hash('862044');
  await database.db.sql`update person set pin_hash = ${chosen} where name = 'Maren Tolk'`;
  const lines = await startAgain(false);
  expect(lines?.join('\n')).not.toContain('Maren Tolk');
  expect(await opens('Maren Tolk', '862044')).toBe(true);
});

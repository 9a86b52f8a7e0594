import { fork } from 'node:child_process';
import { rmSync } from 'node:fs';
import path from 'node:path';
import type { FastifyInstance } from 'fastify';
import { newId } from '#platform/act.ts';
import type { SqlPool } from '#platform/database/client.ts';
import { startSession } from '#platform/identity/sessions.ts';
import { buildApp } from '../../server/app.ts';
import { type Client, clientOf, type Door, doorAt, doorOf } from './client.ts';
import { cloneDatabase, type TestDatabase } from './database.ts';
import { insertSpecSheet, type SpecSheet } from './spec-sheet.ts';
import { filesOf, testConfig } from './test-config.ts';

const staff = {
  writer: ['Idris Fenwick', 'IF', 'service writer'],
  technician: ['Nadia Quill', 'NQ', 'technician'],
  colleague: ['Oskar Pell', 'OP', 'technician'],
  clerk: ['Bea Lindqvist', 'BL', 'parts clerk'],
  lead: ['Maren Tolk', 'MT', 'lead'],
} as const;
export type StaffName = keyof typeof staff;

const rooms = {
  strip: ['Bay 1', 'strip', 1, 1, 1],
  measuring: ['Bay 2', 'measuring', 1, 2, 1],
  assembly: ['Bay 3', 'assembly', 2, 3, 1],
  rack: ['Rack', 'rack', 40, 1, 2],
} as const;
export type RoomName = keyof typeof rooms;

/** A small shop on a database of its own, with its service, its people signed in, and one published spec sheet. */
export interface Shop {
  readonly db: TestDatabase['db'];
  readonly sql: SqlPool;
  readonly url: string;
  readonly app: FastifyInstance;
  readonly people: Readonly<Record<StaffName, string>>;
  readonly bays: Readonly<Record<RoomName, string>>;
  readonly vendorId: string;
  readonly sheet: SpecSheet;
  readonly as: Readonly<Record<StaffName, Client>>;
  readonly close: () => Promise<void>;
}

export async function openShop(): Promise<Shop> {
  const { db, url, drop } = await cloneDatabase();
  const { sql } = db;
  await sql`insert into shop (name, zone, locale, currency, figures_invented) values ('Quarry Lane Engines', 'Europe/Oslo', 'en-GB', 'EUR', true)`;
  const people = await insertStaff(sql);
  const bays = await insertRooms(sql);
  const vendorId = newId();
  await sql`insert into vendor (id, name, trade) values (${vendorId}, 'Saltmere Plating', 'plating')`;
  const sheet = await insertSpecSheet(sql, people.lead);
  const app = await buildApp({ config: testConfig(url), db });
  return {
    db,
    sql,
    url,
    app,
    people,
    bays,
    vendorId,
    sheet,
    as: await signedIn(doorOf(app), { sql, people }),
    close: async () => {
      await app.close();
      await drop();
      rmSync(filesOf(url), { recursive: true, force: true });
    },
  };
}

/** Everybody of the shop, signed in at one server. */
async function signedIn(door: Door, { sql, people }: Pick<Shop, 'sql' | 'people'>): Promise<Record<StaffName, Client>> {
  const clients = await Promise.all(
    (Object.keys(staff) as StaffName[]).map(async (name) => {
      const { token } = await startSession(sql, { personId: people[name], terminalId: undefined });
      return [name, clientOf(door, token)] as const;
    }),
  );
  return Object.fromEntries(clients) as Record<StaffName, Client>;
}

/** A second server of the same shop: an operating-system process of its own, spoken to over the network. */
export async function secondServer(
  shop: Shop,
  { withRounds = false } = {},
): Promise<{ readonly as: Shop['as']; readonly close: () => Promise<void> }> {
  const told = withRounds ? [shop.url, 'rounds'] : [shop.url];
  const child = fork(path.join(import.meta.dirname, 'serve-shop.ts'), told, { execArgv: ['--import', 'tsx'] });
  const over = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const port = await new Promise<number>((resolve, reject) => {
    child.once('message', (served) => resolve(Number(served)));
    child.once('exit', (code) => reject(new Error(`the second server ended with ${code} before it served`)));
  });
  return {
    as: await signedIn(doorAt(`http://127.0.0.1:${port}`), shop),
    close: () => {
      if (child.connected) child.disconnect();
      return over;
    },
  };
}

/** Takes an engine in over the API, a new one by serial or one known by id. */
export async function takeIn(
  shop: Shop,
  of: { serial: string; hours?: string; bay?: RoomName; owner?: string },
): Promise<{ jobId: string; engineId: string; number: number }> {
  const [known] = await shop.sql<{ id: string }[]>`select id from engine where serial = ${of.serial}`;
  const { status, body } = await shop.as.writer.post('/api/jobs', {
    engine: known === undefined ? { serial: of.serial, familyId: shop.sheet.familyId } : { id: known.id },
    owner: { name: of.owner ?? 'Ingrid Falk', contact: '' },
    hours: of.hours ?? '243.5',
    complaint: 'Hard to start hot',
    bayId: shop.bays[of.bay ?? 'rack'],
  });
  if (status !== 201) throw new Error(`${of.serial} was not taken in: ${JSON.stringify(body)}`);
  return { jobId: body.id, engineId: body.engineId, number: body.number };
}

async function insertStaff(sql: SqlPool): Promise<Record<StaffName, string>> {
  const people = Object.entries(staff).map(([key, [name, initials, role]]) => ({
    key,
    id: newId(),
    name,
    initials,
    role,
  }));
  for (const { id, name, initials, role } of people) {
    await sql`insert into person (id, name, initials, pin_hash) values (${id}, ${name}, ${initials}, 'no PIN opens this')`;
    await sql`insert into person_role (person_id, role) values (${id}, ${role})`;
  }
  return Object.fromEntries(people.map(({ key, id }) => [key, id])) as Record<StaffName, string>;
}

async function insertRooms(sql: SqlPool): Promise<Record<RoomName, string>> {
  const bays = Object.entries(rooms).map(([key, room]) => ({ key, id: newId(), room }));
  for (const {
    id,
    room: [name, kind, capacity, column, row],
  } of bays) {
    await sql`
      insert into bay (id, name, kind, capacity, grid_column, grid_row)
      values (${id}, ${name}, ${kind}, ${capacity}, ${column}, ${row})`;
  }
  return Object.fromEntries(bays.map(({ key, id }) => [key, id])) as Record<RoomName, string>;
}

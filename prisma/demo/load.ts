import { createHash, randomInt } from 'node:crypto';
import { hash } from '@node-rs/argon2';
import type { Database } from '../../server/platform/database/client.ts';
import { clockFor } from './clock.ts';
import { tellTheFloor } from './floor-now.ts';
import { insertAll } from './insert.ts';
import { tellThePast } from './past-visits.ts';
import { demoPeople } from './people.ts';
import { foundShop } from './shop-rows.ts';
import { fillStores } from './stock.ts';
import { known, type World, writeEvents } from './world.ts';

export interface DemoOptions {
  /** The demo's "today", an ISO day. */
  readonly anchor: string;
  /** When others can reach the service, PINs are random and printed once. */
  readonly loopback: boolean;
}

/** Two processes that start on one empty database wait for each other. */
const loadLock = 7_302_219;

/**
 * Loads the demo shop when the database holds nothing yet.
 * @returns the lines to print at the start (how to sign in), or undefined when nothing was loaded
 */
export async function loadDemoIfEmpty(db: Database, options: DemoOptions): Promise<readonly string[] | undefined> {
  if ((await db.sql`select from shop`).length > 0) return undefined;
  const pins = new Map(
    demoPeople.map(({ key, pin }) => [key, options.loopback ? pin : String(randomInt(100_000, 1_000_000))]),
  );
  const hashes = await hashPins(pins, options.loopback);
  const world = demoWorld(options.anchor, hashes);
  const loaded = await db.sql.begin(async (sql) => {
    await sql`select pg_advisory_xact_lock(${loadLock})`;
    if ((await sql`select from shop`).length > 0) return false;
    await insertAll(sql, world.rows, async () => {
      await sql`update spec_revision set published_at = drafted_at, published_by_id = ${known(world.people, 'maren')}`;
    });
    await sql`select setval(pg_get_serial_sequence('job', 'number'), (select max(number) from job))`;
    return true;
  });
  if (!loaded) return undefined;
  return [
    `The demo shop was loaded as of ${options.anchor}. Sign in by name and PIN${options.loopback ? '' : ' (made just now and told only here)'}:`,
    ...demoPeople.map(({ key, name, roles }) => `  ${name.padEnd(16)} ${known(pins, key)}  ${roles.join(', ')}`),
  ];
}

/** Every row of the demo for an anchor day; nothing in it depends on anything else. */
export function demoWorld(anchor: string, pinHashes: ReadonlyMap<string, string>): World {
  const world = foundShop(clockFor(anchor), pinHashes);
  const stock = fillStores(world);
  tellTheFloor(world, stock, tellThePast(world, stock));
  writeEvents(world);
  return world;
}

/** A PIN that everybody may know has a salt that everybody may know: the same rows each time. Others get their own. */
async function hashPins(pins: ReadonlyMap<string, string>, fixed: boolean): Promise<ReadonlyMap<string, string>> {
  const hashed = await Promise.all(
    [...pins].map(async ([key, pin]) => {
      const salt = createHash('sha256').update(`quarry lane ${key}`).digest().subarray(0, 16);
      return [key, await hash(pin, fixed ? { salt } : {})] as const;
    }),
  );
  return new Map(hashed);
}

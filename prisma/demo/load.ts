import { hash } from '@node-rs/argon2';
import { newId } from '../../server/platform/act.ts';
import type { Database, Sql } from '../../server/platform/database/client.ts';
import { openFileStore } from '../../server/platform/files/store.ts';
import { giveBadges, randomMark } from './badges.ts';
import { clockFor, isoOf } from './clock.ts';
import { settleTheCounts, tellTheCounts } from './counts.ts';
import { tellTheFloor } from './floor-now.ts';
import { addGaugeStudies } from './gauge-studies.ts';
import { emptyRows, insertAll } from './insert.ts';
import { keepWhatStood } from './offered-state.ts';
import { tellThePast } from './past-visits.ts';
import { demoPeople } from './people.ts';
import { addPhotos, type DemoPictures, drawPictures } from './photos.ts';
import { foundShop, shopRow } from './shop-rows.ts';
import { knownSalt, randomPin, signInAgain, signInLines } from './sign-in.ts';
import { fillStores } from './stock.ts';
import { known, type World, writeEvents } from './world.ts';

export interface DemoOptions {
  /** The demo's "today", an ISO day. */
  readonly anchor: string;
  /** When others can reach the service, PINs are random and printed once. */
  readonly loopback: boolean;
  /** Where photos lie; without it the demo has none. */
  readonly filesFolder?: string;
}

/** Two processes that start on one empty database wait for each other. */
const loadLock = 7_302_219;

/**
 * Loads the demo shop when the database holds nothing yet.
 * @returns the lines to print at the start (how to sign in), or undefined when there is nothing to tell
 */
export async function loadDemoIfEmpty(db: Database, options: DemoOptions): Promise<readonly string[] | undefined> {
  if ((await db.sql`select from shop`).length > 0) return signInAgain(db, options.loopback);
  const pins = new Map(demoPeople.map(({ key, pin }) => [key, options.loopback ? pin : randomPin()]));
  const hashes = await hashPins(pins, options.loopback);
  const pictures = options.filesFolder === undefined ? undefined : await drawPictures();
  const world = demoWorld(options.anchor, hashes, pictures);
  if (options.loopback) giveBadges(world);
  const loaded = await db.sql.begin(async (sql) => {
    if (!(await isEmpty(sql))) return false;
    const maren = known(world.people, 'maren');
    await insertAll(sql, world.rows, {
      sheets: async () => {
        await sql`update spec_revision set published_at = drafted_at, published_by_id = ${maren}`;
      },
      procedures: async () => {
        await sql`update procedure_version set published_at = drafted_at, published_by_id = ${maren}`;
      },
    });
    await keepPictures(pictures, options.filesFolder);
    await keepWhatStood(sql);
    await settleTheCounts(sql);
    await sql`select setval(pg_get_serial_sequence('job', 'number'), (select max(number) from job))`;
    await sql`select setval(pg_get_serial_sequence('badge', 'number'), (select coalesce(max(number), 100) from badge))`;
    await sql`select setval(pg_get_serial_sequence('purchase_order', 'number'), (select max(number) from purchase_order))`;
    return true;
  });
  if (!loaded) return undefined;
  const told = options.loopback ? '' : ' (made just now and told only here)';
  const heading = `The demo shop was loaded as of ${options.anchor}. Sign in by name and PIN${told}:`;
  return signInLines(heading, ({ key }) => pins.get(key));
}

/**
 * Begins an empty shop with its one lead, whose PIN is made now and told only here, when the database holds nothing yet.
 * @returns the lines to print at the start, or undefined when there is a shop already
 */
export async function beginEmptyShopIfNew(db: Database): Promise<readonly string[] | undefined> {
  const pin = randomPin();
  const pinHash = await hash(pin);
  const begun = await db.sql.begin(async (sql) => {
    if (!(await isEmpty(sql))) return false;
    const rows = emptyRows();
    const id = newId();
    rows.add('shop', shopRow('New shop', false, randomMark()));
    rows.add('person', { ...leadOf(id, pinHash) });
    rows.add('person_role', { person_id: id, role: 'lead' });
    await insertAll(sql, rows, { sheets: async () => undefined, procedures: async () => undefined });
    return true;
  });
  return begun
    ? [`An empty shop was begun. Sign in as Lead with PIN ${pin} (made just now and told only here).`]
    : undefined;
}

const leadOf = (id: string, pinHash: string) => ({
  id,
  name: 'Lead',
  initials: 'L',
  pin_hash: pinHash,
  joined_at: isoOf(Date.now()),
  left_at: null,
});

/** Held until the transaction ends, so that of two processes one loads and the other sees it. */
async function isEmpty(sql: Sql): Promise<boolean> {
  await sql`select pg_advisory_xact_lock(${loadLock})`;
  return (await sql`select from shop`).length === 0;
}

/** Every row of the demo for an anchor day; nothing in it depends on anything else. */
export function demoWorld(anchor: string, pinHashes: ReadonlyMap<string, string>, pictures?: DemoPictures): World {
  const world = foundShop(clockFor(anchor), pinHashes);
  const stock = fillStores(world);
  tellTheFloor(world, stock, tellThePast(world, stock));
  tellTheCounts(world, stock);
  addGaugeStudies(world);
  if (pictures !== undefined) addPhotos(world, pictures);
  writeEvents(world);
  return world;
}

async function keepPictures(pictures: DemoPictures | undefined, folder: string | undefined): Promise<void> {
  if (pictures === undefined || folder === undefined) return;
  const store = openFileStore(folder);
  for (const { hash, files } of [...pictures.drawn.values(), pictures.paper]) await store.put(hash, files);
}

/** Known PINs make the same rows each time; the others get a salt of their own. */
async function hashPins(pins: ReadonlyMap<string, string>, fixed: boolean): Promise<ReadonlyMap<string, string>> {
  const hashed = await Promise.all(
    [...pins].map(async ([key, pin]) => {
      return [key, await hash(pin, fixed ? { salt: knownSalt(key) } : {})] as const;
    }),
  );
  return new Map(hashed);
}

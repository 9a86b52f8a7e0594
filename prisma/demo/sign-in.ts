import { createHash, randomInt } from 'node:crypto';
import { hash } from '@node-rs/argon2';
import type { Database } from '../../server/platform/database/client.ts';
import { voidKnownBadges } from './badges.ts';
import { type DemoPerson, demoPeople } from './people.ts';

/** A PIN that everybody may know has a salt that everybody may know, so that the demo's rows are the same each time. */
export function knownSalt(key: string): Buffer {
  return createHash('sha256').update(`quarry lane ${key}`).digest().subarray(0, 16);
}

/** A PIN of six digits that nobody knows yet. */
export function randomPin(): string {
  return String(randomInt(100_000, 1_000_000));
}

/** How to sign in, as lines to print. */
export function signInLines(heading: string, pinOf: (person: DemoPerson) => string | undefined): readonly string[] {
  const lines = demoPeople.flatMap((person) => {
    const pin = pinOf(person);
    return pin === undefined ? [] : [`  ${person.name.padEnd(16)} ${pin}  ${person.roles.join(', ')}`];
  });
  return [heading, ...lines];
}

/**
 * How to sign in to a demo shop that was loaded earlier. PINs that everybody knows are told again while only this machine
 * reaches the service; once others do, each is replaced by a random one, told this once.
 * @returns undefined when no PIN is one of the known ones
 */
export async function signInAgain(db: Database, loopback: boolean): Promise<readonly string[] | undefined> {
  const found = await peopleWithKnownPins(db);
  if (found.size === 0) return undefined;
  if (loopback)
    return signInLines('Sign in by name and PIN:', (person) => (found.has(person) ? person.pin : undefined));
  const pins = new Map([...found.keys()].map((person) => [person, randomPin()]));
  const hashes = new Map(await Promise.all([...pins].map(async ([person, pin]) => [person, await hash(pin)] as const)));
  await db.sql.begin(async (sql) => {
    await voidKnownBadges(sql);
    for (const [person, id] of found) {
      await sql`update person set pin_hash = ${hashes.get(person) ?? ''} where id = ${id}`;
    }
  });
  const heading = 'Others can reach this service now, so the PINs that everybody knows were replaced. Told only here:';
  return signInLines(heading, (person) => pins.get(person));
}

/** A PIN set since has a random salt, so the salt tells, without hashing anything. */
async function peopleWithKnownPins(db: Database): Promise<ReadonlyMap<DemoPerson, string>> {
  const people = await db.sql<{ id: string; pinHash: string }[]>`
    select id, pin_hash as "pinHash" from person where left_at is null`;
  return new Map(
    demoPeople.flatMap((person) => {
      const salt = knownSalt(person.key).toString('base64').replace(/=+$/, '');
      const row = people.find(({ pinHash }) => pinHash.split('$').at(-2) === salt);
      return row === undefined ? [] : [[person, row.id] as const];
    }),
  );
}

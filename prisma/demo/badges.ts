import { createHash, randomInt } from 'node:crypto';
import { labelAlphabet } from '../../server/domain/labels/check-symbol.ts';
import { writeCode } from '../../server/domain/labels/code.ts';
import type { Sql } from '../../server/platform/database/client.ts';
import { isoOf } from './clock.ts';
import { demoPeople, type PersonKey } from './people.ts';
import { known, type World } from './world.ts';

/** What the demo's labels carry; another shop's are told from them by it. */
export const DEMO_MARK = 'Q7';

/** Two symbols for a new shop. */
export const randomMark = (): string => Array.from({ length: 2 }, () => labelAlphabet.charAt(randomInt(32))).join('');

/** A badge that everybody may know, like the demo's PINs: only while no other machine reaches the service. */
export function demoBadgeCode(key: PersonKey): string {
  const bytes = createHash('sha256').update(`quarry lane badge ${key}`).digest().subarray(0, 16);
  const serial = Array.from(bytes, (byte) => labelAlphabet.charAt(byte & 31)).join('');
  return writeCode({ kind: 'badge', mark: DEMO_MARK, serial });
}

const hashOf = (code: string): Buffer => createHash('sha256').update(code).digest();

/** Everybody's badge. It asks for the PIN too, as a shop has it until it says otherwise. */
export function giveBadges({ rows, id, clock, people }: World): void {
  const at = clock.at(-30, '08:10');
  demoPeople.forEach(({ key }, index) => {
    rows.add('badge', {
      id: id('badge', at),
      number: 101 + index,
      person_id: known(people, key),
      code_hash: `\\x${hashOf(demoBadgeCode(key)).toString('hex')}`,
      issued_by_id: known(people, 'maren'),
      issued_at: isoOf(at),
    });
  });
}

/** Once others can reach the service, badges that everybody may know are void. */
export async function voidKnownBadges(sql: Sql): Promise<void> {
  const hashes = demoPeople.map(({ key }) => hashOf(demoBadgeCode(key)));
  await sql`
    update badge set revoked_at = clock_timestamp(), revoked_by_id = person_id, revoked_reason = 'everybody may know it'
    where revoked_at is null and code_hash in ${sql(hashes)}`;
}

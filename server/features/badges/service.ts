import { createHash, randomBytes } from 'node:crypto';
import type { BadgeIssued, Badges } from '#contracts/labels.ts';
import type { Named } from '#contracts/wire.ts';
import { labelAlphabet } from '#domain/labels/check-symbol.ts';
import { readCode, writeCode } from '#domain/labels/code.ts';
import type { LabelFacts } from '#domain/labels/design.ts';
import type { Act } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';
import { endOtherSessions } from '#platform/identity/sessions.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findByHash, findPeople, findRule, insertBadge, lockBadge, lockPerson, revokeOf, setRule } from './queries.ts';

/** Sixteen symbols of 32 kinds: 80 random bits, which nobody finds by trying, so a plain hash keeps them. */
const randomSerial = (): string => Array.from(randomBytes(16), (byte) => labelAlphabet.charAt(byte & 31)).join('');

const hashOf = (code: string): Buffer => createHash('sha256').update(code).digest();

/** Who has a badge, and whether a badge opens alone. */
export async function badges(sql: Sql): Promise<Badges> {
  const [{ alone }, people] = await Promise.all([findRule(sql), findPeople(sql)]);
  return { alone, people };
}

export const opensAlone = async (sql: Sql): Promise<boolean> => (await findRule(sql)).alone;

type Issued = Omit<BadgeIssued, 'code'>;

/** A new badge for somebody; the one they had before is void from now on. The code is told here and never again. */
export async function issueBadge(act: Act, personId: string): Promise<Issued & { readonly code: string }> {
  const person = found(await lockPerson(act.sql, personId), 'such person here');
  const { mark } = await findRule(act.sql);
  const code = writeCode({ kind: 'badge', mark, serial: randomSerial() });
  await revokeOf(act.sql, { personId, byId: act.actor.id, reason: 'a new badge was issued' });
  const badge = await insertBadge(act.sql, { personId, byId: act.actor.id, codeHash: hashOf(code) });
  await act.event('badge.issued', { data: { number: badge.number, person: person.name } });
  return { ...badge, person: { id: person.id, name: person.name }, code };
}

/** Takes a badge back for good. Whoever carries it is signed out everywhere but where this is done. */
export async function revokeBadge(
  act: Act,
  id: string,
  reason: string,
): Promise<{ id: string; number: number; person: Named }> {
  const badge = found(await lockBadge(act.sql, id), 'such badge');
  if (badge.revoked) throw new ProblemError('already-done', `Badge ${badge.number} was taken back already.`);
  const { number, personId, name } = badge;
  await revokeOf(act.sql, { personId, byId: act.actor.id, reason: reason.trim() });
  await endOtherSessions(act.sql, personId, act.actor.sessionId);
  await act.event('badge.revoked', { data: { number, person: name, reason: reason.trim() } });
  return { id, number, person: { id: personId, name } };
}

export async function setBadgeRule(act: Act, alone: boolean): Promise<{ alone: boolean }> {
  await setRule(act.sql, alone);
  await act.event('badge.rule-set', { data: { alone } });
  return { alone };
}

/** Whose badge it is. Refused in words when it is none, unknown, taken back, or another shop's. */
export async function badgeOf(sql: Sql, text: string) {
  const read = readCode(text);
  if (!read.ok || read.code.kind !== 'badge') {
    throw new ProblemError(
      'badge-wrong',
      'That is no badge, or it was read badly. Scan it again, or sign in by name and PIN.',
    );
  }
  const { mark } = await findRule(sql);
  if (read.code.mark !== mark) {
    throw new ProblemError('badge-wrong', 'That badge is another shop’s. Sign in by name and PIN.');
  }
  const badge = await findByHash(sql, hashOf(writeCode(read.code)));
  if (badge === undefined) {
    throw new ProblemError('badge-wrong', 'This badge is not known here. Sign in by name and PIN.');
  }
  if (badge.revoked) {
    throw new ProblemError(
      'badge-wrong',
      `Badge ${badge.number} was taken back and opens nothing. Sign in by name and PIN, or ask the lead for a new one.`,
    );
  }
  return badge;
}

/** What a badge says, for whoever has just been told its code. The code is printed in the symbol alone, for no eye to copy. */
export async function badgeFacts(
  sql: Sql,
  { code, shop, pointer }: { readonly code: string; readonly shop: string; readonly pointer: string },
): Promise<LabelFacts> {
  try {
    const { name, roles, number } = await badgeOf(sql, code);
    const read = readCode(code);
    if (!read.ok) throw new Error('a badge that was found is read');
    return {
      kind: 'badge',
      name,
      rows: [roles.join(', '), shop],
      code: writeCode(read.code),
      beneath: `badge ${number}`,
    };
  } catch (error) {
    if (!(error instanceof ProblemError)) throw error;
    throw new ProblemError('refused', error.message, { errors: [{ pointer, detail: error.message }] });
  }
}

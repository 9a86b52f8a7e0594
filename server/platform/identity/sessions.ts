import { createHash, randomBytes } from 'node:crypto';
import type { Role } from '#contracts/rights.ts';
import type { Actor } from '#platform/act.ts';
import { newId } from '#platform/act.ts';
import type { Sql } from '#platform/database/client.ts';

export const SESSION_COOKIE = 'crosshatch_session';
export const SESSION_HOURS = 12;

const hashOf = (token: string): Buffer => createHash('sha256').update(token).digest();

interface SessionRow {
  readonly sessionId: string;
  readonly terminalId: string | null;
  readonly id: string;
  readonly name: string;
  readonly initials: string;
  readonly roles: readonly Role[];
}

/** Starts a session and returns its token, which is kept nowhere: only its hash is. */
export async function startSession(
  sql: Sql,
  of: { readonly personId: string; readonly terminalId: string | undefined },
): Promise<{ readonly token: string; readonly sessionId: string }> {
  const token = randomBytes(32).toString('base64url');
  const sessionId = newId();
  await sql`
    insert into session (id, token_hash, person_id, terminal_id, expires_at)
    values (${sessionId}, ${hashOf(token)}, ${of.personId}, ${of.terminalId ?? null},
            clock_timestamp() + make_interval(hours => ${SESSION_HOURS}))`;
  return { token, sessionId };
}

/** Who the token stands for, or undefined when it is unknown, ended, expired, or its person has left. */
export async function findActor(sql: Sql, token: string): Promise<Actor | undefined> {
  const [row] = await sql<SessionRow[]>`
    select s.id as "sessionId", s.terminal_id as "terminalId", p.id, p.name, p.initials,
           (select coalesce(array_agg(r.role), '{}') from person_role r where r.person_id = p.id) as roles
    from session s join person p on p.id = s.person_id
    where s.token_hash = ${hashOf(token)} and s.ended_at is null and s.expires_at > clock_timestamp() and p.left_at is null`;
  return row === undefined ? undefined : { ...row, terminalId: row.terminalId ?? undefined };
}

export async function endSession(sql: Sql, sessionId: string): Promise<void> {
  await sql`update session set ended_at = clock_timestamp() where id = ${sessionId} and ended_at is null`;
  await sql`select pg_notify('crosshatch_session', ${sessionId})`;
}

/** Ends every session of a person but one; their live streams end with them. */
export async function endOtherSessions(sql: Sql, personId: string, exceptId: string): Promise<void> {
  await sql`
    with ended as (
      update session set ended_at = clock_timestamp()
      where person_id = ${personId} and ended_at is null and id <> ${exceptId} returning id
    )
    select pg_notify('crosshatch_session', id::text) from ended`;
}

import { verify } from '@node-rs/argon2';
import { roles as allRoles, may, type Role, rights } from '#contracts/rights.ts';
import type { Session, SignIn, SignInChoices } from '#contracts/session.ts';
import type { Actor } from '#platform/act.ts';
import type { Database, Models, Sql } from '#platform/database/client.ts';
import { endSession, findActor, startSession } from '#platform/identity/sessions.ts';
import { found, ProblemError } from '#platform/problem.ts';
import {
  countFailures,
  findChoices,
  findPinHash,
  findShop,
  findTerminal,
  insertFailure,
  lockTries,
} from './queries.ts';

const TRIES_PER_PERSON = 5;
const TRIES_PER_ADDRESS = 40;
const WINDOW_MINUTES = 10;

const isRole = (text: string): text is Role => (allRoles as readonly string[]).includes(text);

export async function signInChoices(db: Models): Promise<SignInChoices> {
  const { shop, people, terminals } = await findChoices(db);
  return {
    shop: shop?.name ?? '',
    people: people.map(({ id, name, initials, personRoles }) => ({
      id,
      name,
      initials,
      roles: personRoles.map(({ role }) => role).filter(isRole),
    })),
    terminals: terminals.map(({ id, name }) => ({ id, name })),
  };
}

type Attempt = { readonly token: string } | { readonly problem: ProblemError };

/** Why the door stays shut for a while; undefined: it does not. Without a person only the address's tries count. */
export async function tooManyTries(
  sql: Sql,
  { personId, address }: { readonly personId: string | undefined; readonly address: string },
): Promise<ProblemError | undefined> {
  const failures = await countFailures(sql, { personId: personId ?? null, address, minutes: WINDOW_MINUTES });
  if (failures.person < TRIES_PER_PERSON && failures.address < TRIES_PER_ADDRESS) return undefined;
  return new ProblemError(
    'too-many',
    `Too many wrong PINs. Wait ${WINDOW_MINUTES} minutes, or ask the lead for a new PIN.`,
  );
}

/** Signs in by name and PIN. Failures are counted, for the person and for the address, and slow a guesser down. */
export async function signIn(
  { sql, prisma }: Database,
  { personId, pin, terminalId }: SignIn,
  address: string,
): Promise<{ readonly token: string; readonly session: Session }> {
  const terminal =
    terminalId === undefined ? undefined : found(await findTerminal(prisma, terminalId), 'such terminal');
  const attempt = await sql.begin(async (transaction): Promise<Attempt> => {
    await lockTries(transaction, personId);
    const shut = await tooManyTries(transaction, { personId, address });
    if (shut !== undefined) return { problem: shut };
    const person = await findPinHash(transaction, personId);
    if (person === undefined || !(await verify(person.pinHash, pin))) {
      await insertFailure(transaction, { personId: person === undefined ? null : personId, address });
      return { problem: new ProblemError('pin-wrong', 'That PIN is not right for this name. Try again.') };
    }
    return startSession(transaction, { personId, terminalId: terminal?.id });
  });
  // Thrown only now: the counted failure must be committed.
  if ('problem' in attempt) throw attempt.problem;
  const actor = found(await findActor(sql, attempt.token), 'such session');
  return { token: attempt.token, session: await describeSession(prisma, actor) };
}

export async function describeSession(db: Models, actor: Actor): Promise<Session> {
  const [shop, terminal] = await Promise.all([
    findShop(db),
    actor.terminalId === undefined ? undefined : findTerminal(db, actor.terminalId),
  ]);
  const { name, zone, locale, currency, figuresInvented } = found(shop, 'shop yet');
  return {
    person: { id: actor.id, name: actor.name, initials: actor.initials },
    roles: [...actor.roles],
    rights: rights.filter((right) => may(actor.roles, right)),
    terminal:
      terminal === null || terminal === undefined
        ? null
        : { id: terminal.id, name: terminal.name, idleMinutes: terminal.idleMinutes },
    shop: { name, zone, locale, currency: currency.trim(), figuresInvented },
  };
}

export const signOut = ({ sql }: Database, actor: Actor): Promise<void> => endSession(sql, actor.sessionId);

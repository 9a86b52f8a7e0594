import { verify } from '@node-rs/argon2';
import type { BadgeAnswer, BadgeSignIn, Session } from '#contracts/session.ts';
import { badgeOf, opensAlone } from '#features/badges/service.ts';
import type { Database } from '#platform/database/client.ts';
import { findActor, startSession } from '#platform/identity/sessions.ts';
import { found, ProblemError } from '#platform/problem.ts';
import { findTerminal, insertFailure, lockTries } from './queries.ts';
import { describeSession, tooManyTries } from './service.ts';

type PinOf = { readonly pinOf: NonNullable<BadgeAnswer['pinOf']> };
type Attempt = { readonly token: string } | { readonly problem: ProblemError } | PinOf;
type Answer = { readonly token: string; readonly session: Session } | PinOf;

/**
 * Signs in by badge. A badge that opens nothing is counted as a failed try of the address; a wrong PIN behind a good
 * badge, as one of the person.
 */
export async function signInByBadge({ sql, prisma }: Database, asked: BadgeSignIn, address: string): Promise<Answer> {
  const { code, pin, terminalId } = asked;
  if (terminalId !== undefined) found(await findTerminal(prisma, terminalId), 'such terminal');
  const attempt = await sql.begin(async (transaction): Promise<Attempt> => {
    // One try at a time from one address, so that guesses sent all at once are counted too.
    await lockTries(transaction, address);
    const shut = await tooManyTries(transaction, { personId: undefined, address });
    if (shut !== undefined) return { problem: shut };
    const badge = await badgeOf(transaction, code).catch((error: unknown) => error);
    if (badge instanceof ProblemError) {
      await insertFailure(transaction, { personId: null, address });
      return { problem: badge };
    }
    if (badge instanceof Error) throw badge;
    const { personId, name, initials, pinHash } = badge as Awaited<ReturnType<typeof badgeOf>>;
    await lockTries(transaction, personId);
    const closed = await tooManyTries(transaction, { personId, address });
    if (closed !== undefined) return { problem: closed };
    if (pin === undefined && !(await opensAlone(transaction))) return { pinOf: { id: personId, name, initials } };
    if (pin !== undefined && !(await verify(pinHash, pin))) {
      await insertFailure(transaction, { personId, address });
      return { problem: new ProblemError('pin-wrong', `That PIN is not right for ${name}’s badge. Try again.`) };
    }
    return startSession(transaction, { personId, terminalId });
  });
  // Thrown only now: the counted failure must be committed.
  if ('problem' in attempt) throw attempt.problem;
  if ('pinOf' in attempt) return attempt;
  const actor = found(await findActor(sql, attempt.token), 'such session');
  return { token: attempt.token, session: await describeSession(prisma, actor) };
}

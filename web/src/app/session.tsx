import { queryOptions, useQuery } from '@tanstack/react-query';
import { createContext, type ReactNode, useContext, useEffect } from 'react';
import type { Right } from '#contracts/rights.ts';
import type { BadgeAnswer, BadgeSignIn, Session, SignIn } from '#contracts/session.ts';
import { RefusedError, read, send } from './api.ts';
import { startLive } from './live.ts';
import { startSending } from './outbox-sending.ts';
import { startSendingPhotos } from './photo-sending.ts';
import { queryClient } from './query-client.ts';

const sessionQuery = queryOptions({
  queryKey: ['session'],
  queryFn: async ({ signal }): Promise<Session | null> => {
    try {
      return await read<Session>('/session', signal);
    } catch (error) {
      if (error instanceof RefusedError && error.problem.status === 401) return null;
      throw error;
    }
  },
  meta: { follows: 'no change' },
  staleTime: 5 * 60_000,
});

const SessionContext = createContext<Session | null>(null);

/** Reads who is signed in; shows `signedOut` until somebody is. The live line is up while somebody is. */
export function SessionGate({
  children,
  signedOut,
  reading,
}: {
  children: ReactNode;
  signedOut: ReactNode;
  reading: ReactNode;
}) {
  const { data, isPending } = useQuery(sessionQuery);
  const personId = data?.person.id;
  useEffect(() => (personId === undefined ? undefined : startLive()), [personId]);
  useEffect(
    () => (personId === undefined ? undefined : startSending({ personId, onSignedOut: forgetSession })),
    [personId],
  );
  useEffect(
    () => (personId === undefined ? undefined : startSendingPhotos({ personId, onSignedOut: forgetSession })),
    [personId],
  );
  if (isPending) return reading;
  if (data === null || data === undefined) return signedOut;
  return <SessionContext value={data}>{children}</SessionContext>;
}

/** Who is signed in. Only inside SessionGate. */
export function useSession(): Session {
  const session = useContext(SessionContext);
  if (session === null) throw new Error('useSession outside SessionGate');
  return session;
}

/** True if the signed-in person has the right; the server checks it again. */
export const useMay = (right: Right): boolean => useSession().rights.includes(right);

/**
 * Sets who is signed in, and forgets whatever was read for somebody else. The session's own query stays: taken out of
 * the cache under SessionGate, it would be told of nothing more, and the page would stand still.
 */
function setSession(session: Session | null): void {
  queryClient.setQueryData(sessionQuery.queryKey, session);
  queryClient.removeQueries({ predicate: ({ queryKey }) => queryKey[0] !== sessionQuery.queryKey[0] });
}

export async function signIn(asked: SignIn): Promise<void> {
  setSession(await send<Session>('/session', asked));
}

/** Signs in by badge; answers whose PIN is wanted first, if one is. */
export async function signInByBadge(asked: BadgeSignIn): Promise<BadgeAnswer['pinOf']> {
  const { session, pinOf } = await send<BadgeAnswer>('/session/badge', asked);
  if (session !== null) setSession(session);
  return pinOf;
}

export async function signOut(): Promise<void> {
  await send('/session', undefined, { method: 'DELETE' }).catch(() => undefined);
  setSession(null);
}

/** The server no longer knows this session: back to the sign-in, nothing on screen stays readable. */
export function forgetSession(): void {
  setSession(null);
}

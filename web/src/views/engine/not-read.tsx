import { useEffect } from 'react';
import type { Right } from '#contracts/rights.ts';
import { RefusedError } from '../../app/api.ts';
import { forgetSession } from '../../app/session.tsx';
import { Failed, Forbidden, Missing } from '../../app/view-states.tsx';

type Props = { readonly error: unknown; readonly again: () => void; readonly right: Right };

/** A view that could not be read: not signed in any more, not allowed, not there, or failed. */
export function NotRead({ error, again, right }: Props) {
  const status = error instanceof RefusedError ? error.problem.status : undefined;
  useEffect(() => {
    if (status === 401) forgetSession();
  }, [status]);
  if (status === 403) return <Forbidden right={right} />;
  if (status === 404) return <Missing />;
  return <Failed error={error} again={again} />;
}

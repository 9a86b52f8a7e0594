import { useEffect, useState } from 'react';
import type { KeyReadings, Preview } from '#contracts/readings.ts';
import { RefusedError, send } from '../../app/api.ts';

const PAUSE_MS = 150;

export type Previewed =
  | { readonly state: 'none' }
  | { readonly state: 'asking' }
  | { readonly state: 'offline' }
  | { readonly state: 'refused'; readonly words: string }
  | { readonly state: 'there'; readonly preview: Preview };

/** What the server would say of what is typed, asked once the fingers pause; nothing is kept by it. */
export function usePreview(jobId: string, body: KeyReadings | null): Previewed {
  const asked = body === null ? null : JSON.stringify(body);
  const [answer, setAnswer] = useState<{ readonly to: string; readonly said: Previewed } | null>(null);
  useEffect(() => {
    if (asked === null) return;
    let left = false;
    const say = (said: Previewed) => {
      if (!left) setAnswer({ to: asked, said });
    };
    const timer = setTimeout(() => {
      send<Preview>(`/jobs/${jobId}/readings/preview`, JSON.parse(asked)).then(
        (preview) => say({ state: 'there', preview }),
        (error: unknown) =>
          say(
            error instanceof RefusedError && !error.offline && error.problem.status < 500
              ? { state: 'refused', words: error.message }
              : { state: 'offline' },
          ),
      );
    }, PAUSE_MS);
    return () => {
      left = true;
      clearTimeout(timer);
    };
  }, [jobId, asked]);
  if (asked === null) return { state: 'none' };
  return answer?.to === asked ? answer.said : { state: 'asking' };
}

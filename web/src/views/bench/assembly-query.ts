import { queryOptions } from '@tanstack/react-query';
import type { AssemblyPage, FastenerSetStanding } from '#contracts/assembly.ts';
import type { HandBackPage } from '#contracts/hand-back.ts';
import type { Closing } from '#contracts/openings.ts';
import { read } from '../../app/api.ts';
import type { Entry } from '../../app/outbox.ts';
import { putOnScreen } from '../../app/query-client.ts';

export const assemblyQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['assembly', jobId],
    queryFn: ({ signal }) => read<AssemblyPage>(`/jobs/${jobId}/assembly`, signal),
    meta: { follows: { jobId } },
  });

export const closingQuery = (jobId: string, openingId: string | null) =>
  queryOptions({
    queryKey: ['closing', openingId],
    queryFn: ({ signal }) => read<Closing>(`/openings/${openingId}/closing`, signal),
    enabled: openingId !== null,
    meta: { follows: { jobId } },
  });

export const handBackQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['hand-back', jobId],
    queryFn: ({ signal }) => read<HandBackPage>(`/jobs/${jobId}/hand-back`, signal),
    meta: { follows: { jobId } },
  });

function withoutPull(set: FastenerSetStanding, pullId: string): FastenerSetStanding {
  const gone = set.pulls.find(({ id }) => id === pullId);
  if (gone === undefined) return set;
  return {
    ...set,
    complete: false,
    pulls: set.pulls.filter(({ id }) => id !== pullId),
    stages: set.stages.map((stage) => {
      if (stage.ordinal !== gone.stage) return stage;
      const done = stage.done.filter((fastener) => fastener !== gone.fastener);
      return { ...stage, done, missing: set.order.filter((fastener) => !done.includes(fastener)) };
    }),
  };
}

/** The set that a pull, or its taking back, has changed: put on screen before everything is read again. */
export function putPull(entry: Entry, reply: unknown): void {
  const struck = entry.kind === 'strike' ? /^\/torque-pulls\/([^/]+)\/strike$/.exec(entry.path)?.[1] : undefined;
  if (entry.kind !== 'pull' && struck === undefined) return;
  const changed = (set: FastenerSetStanding): FastenerSetStanding => {
    if (struck !== undefined) return withoutPull(set, struck);
    const standing = reply as FastenerSetStanding;
    return set.code === standing.code ? { ...standing, required: set.required } : set;
  };
  putOnScreen(assemblyQuery(entry.jobId).queryKey, (page) => ({ ...page, sets: page.sets.map(changed) }));
}

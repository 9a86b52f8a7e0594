import { queryOptions } from '@tanstack/react-query';
import type { OpenVoices } from '#contracts/opening-rules.ts';
import { read } from '../../app/api.ts';

/** Time passes without an event, so this is asked again each minute. */
const EVERY_MINUTE = 60_000;

export const voicesQuery = queryOptions({
  queryKey: ['voices'],
  queryFn: ({ signal }) => read<OpenVoices>('/openings/voices', signal),
  refetchInterval: EVERY_MINUTE,
  meta: { follows: 'every change' },
});

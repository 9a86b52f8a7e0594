import { queryOptions } from '@tanstack/react-query';
import type { BenchView } from '#contracts/bench.ts';
import type { KeptReadings, StruckReading } from '#contracts/readings.ts';
import { read } from '../../app/api.ts';
import type { Entry } from '../../app/outbox.ts';
import { putOnScreen } from '../../app/query-client.ts';

export const benchQuery = (jobId: string) =>
  queryOptions({
    queryKey: ['bench', jobId],
    queryFn: ({ signal }) => read<BenchView>(`/jobs/${jobId}/bench`, signal),
    meta: { follows: { jobId } },
  });

/** A bench with what the server has just kept or struck, so that no place looks empty until it is read again. */
export function withReply(bench: BenchView, reply: Partial<KeptReadings & StruckReading>): BenchView {
  const { readings = [], findings = [], readingId } = reply;
  return {
    ...bench,
    dimensions: bench.dimensions.map((dimension) => {
      const added = readings.filter(
        (reading) => reading.dimension === dimension.code && !dimension.readings.some(({ id }) => id === reading.id),
      );
      const found = findings.filter((finding) => finding.dimension === dimension.code);
      if (added.length === 0 && found.length === 0 && readingId === undefined) return dimension;
      return {
        ...dimension,
        readings: [...dimension.readings.filter(({ id }) => id !== readingId), ...added],
        findings: [
          ...dimension.findings.filter((old) => !found.some(({ round }) => round === old.round)),
          ...found.filter(({ withdrawn }) => !withdrawn),
        ],
      };
    }),
  };
}

/** Puts what the server answered to an entry into the bench that is on screen. */
export function putReply(entry: Entry, reply: unknown): void {
  if (entry.kind === 'pull') return;
  putOnScreen(benchQuery(entry.jobId).queryKey, (bench) =>
    withReply(bench, reply as Partial<KeptReadings & StruckReading>),
  );
}

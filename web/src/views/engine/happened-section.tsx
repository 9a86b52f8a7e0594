import { useInfiniteQuery } from '@tanstack/react-query';
import type { EngineEvent, EngineEvents, EnginePage } from '#contracts/engines.ts';
import { read } from '../../app/api.ts';
import { MorePages } from '../../kit/more-pages.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EventPhoto } from '../photos/event-photo.tsx';
import { NotRead } from './not-read.tsx';
import { toldBy } from './told.ts';

const PAGE = 15;

function EventLine({ event, engineId }: { readonly event: EngineEvent; readonly engineId: string }) {
  const words = useWords().engine;
  const format = useFormat();
  const sentence = words.events[event.kind];
  return (
    <li>
      <time className="num note" dateTime={event.happenedAt} title={format.dateTime(event.happenedAt)}>
        {format.since(event.happenedAt)}
      </time>
      <div>
        {sentence === undefined ? event.kind : sentence(toldBy(event.data))}
        <span className="note line">
          {[event.actor?.name ?? '', event.terminal === null ? '' : words.eventAtTerminal(event.terminal.name)]
            .filter((part) => part !== '')
            .join(', ')}
        </span>
        {event.kind === 'photo.added' ? <EventPhoto engineId={engineId} photoId={String(event.data.photo)} /> : null}
      </div>
    </li>
  );
}

/** What happened to this engine, newest first, over all its visits. */
export function HappenedSection({ engineId }: { readonly engineId: string }) {
  const words = useWords().engine;
  const events = useInfiniteQuery({
    queryKey: ['engine-events', engineId],
    queryFn: ({ pageParam, signal }) =>
      read<EngineEvents>(
        `/engines/${engineId}/events?limit=${PAGE}${pageParam === '' ? '' : `&after=${encodeURIComponent(pageParam)}`}`,
        signal,
      ),
    initialPageParam: '',
    getNextPageParam: ({ next }) => next,
    meta: { follows: { engineId } },
  });
  const items = events.data?.pages.flatMap((page) => page.items) ?? [];
  return (
    <section className="page-part" aria-labelledby="happened">
      <h2 id="happened">{words.happened}</h2>
      {events.isPending ? <Skeleton label={words.happened} lines={8} /> : null}
      {events.isError && events.data === undefined ? (
        <NotRead error={events.error} again={() => void events.refetch()} right="look" />
      ) : null}
      {events.isSuccess && items.length === 0 ? <p className="note">{words.nothingHappened}</p> : null}
      <ol className="happened">
        {items.map((event) => (
          <EventLine key={event.id} event={event} engineId={engineId} />
        ))}
      </ol>
      <MorePages of={events} coming={words.moreComing}>
        {words.earlier}
      </MorePages>
    </section>
  );
}

/** Every visit, newest first; each has its build sheet. */
export function VisitsSection({ visits }: { readonly visits: EnginePage['visits'] }) {
  const words = useWords().engine;
  const format = useFormat();
  if (visits.length === 0) return null;
  return (
    <section className="page-part" aria-labelledby="visits">
      <h2 id="visits">{words.visitsTitle}</h2>
      <ol className="plain-lines">
        {visits.map((visit) => (
          <li key={visit.jobId}>
            <div>
              <a href={`/sheets/${visit.jobId}`} className="num">
                {words.jobNumber(visit.number)}
              </a>
              <span className="num">, {words.hoursOf(format.decimal(visit.hours))}</span>
              <span className="note line">{visit.complaint}</span>
            </div>
            <span className="note num">
              {visit.handedBackAt === null
                ? words.inSince(format.since(visit.takenInAt))
                : words.handedBack(format.since(visit.handedBackAt))}
            </span>
          </li>
        ))}
      </ol>
    </section>
  );
}

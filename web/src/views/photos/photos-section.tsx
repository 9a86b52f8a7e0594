import { useQuery } from '@tanstack/react-query';
import type { RemovedPhoto } from '#contracts/photos.ts';
import { type ShownPhoto, usePhotosKept } from '../../app/photo-outbox.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { KeptPhotos } from './kept-photos.tsx';
import { PhotoButton } from './photo-button.tsx';
import { PhotoStrip } from './photo-strip.tsx';
import { photosQuery } from './photos-query.ts';
import './photos.css';

interface PhotosSectionProps {
  readonly engineId: string;
  /** The job that photos are taken for; null: the engine isn't in the shop. */
  readonly jobId: string | null;
}

/** Every photo and document of an engine, the newest first, and the button for one more. */
export function PhotosSection({ engineId, jobId }: PhotosSectionProps) {
  const { photos: words } = useWords();
  const { data, error, refetch } = useQuery(photosQuery(engineId));
  const kept = usePhotosKept().filter((photo) => photo.jobId === jobId);
  const lead = useMay('lead');
  return (
    <section className="page-part" aria-labelledby="photos">
      <h2 id="photos">
        {words.title} {data === undefined ? null : <span className="num note">({data.items.length})</span>}
      </h2>
      {data === undefined ? (
        error === null ? (
          <Skeleton label={words.title} lines={3} />
        ) : (
          <NotRead error={error} again={() => void refetch()} right="look" />
        )
      ) : (
        <>
          {data.items.length === 0 ? <p className="note">{`${words.none} ${words.noneHow}`}</p> : null}
          <PhotoStrip photos={data.items} label={words.title} />
          <NotSent photos={kept} />
          <KeptPhotos photos={kept} />
          {jobId === null ? null : (
            <div className="photo-add no-print">
              <PhotoButton target={{ jobId, of: {}, words: '' }} />
            </div>
          )}
          {lead && data.removed.length > 0 ? <Removed removed={data.removed} /> : null}
        </>
      )}
    </section>
  );
}

/** That some still wait here, and for whom; one that was refused says so itself. */
function NotSent({ photos }: { readonly photos: readonly ShownPhoto[] }) {
  const { photos: words } = useWords();
  const waiting = photos.filter(({ refusal }) => refusal === null);
  const who = [...new Set(waiting.map(({ person }) => person))].join(', ');
  return (
    <p className="note" role="status">
      {waiting.length === 0 ? '' : words.notSent(waiting.length, who)}
    </p>
  );
}

/** Tombstones, for the lead: what was removed, and the act that deletes its content for good. */
function Removed({ removed }: { readonly removed: readonly RemovedPhoto[] }) {
  const { photos: words } = useWords();
  const format = useFormat();
  const writing = useWrite();
  return (
    <details className="photos-removed no-print">
      <summary>
        {words.removedTitle} <span className="num">({removed.length})</span>
      </summary>
      <ul>
        {removed.map(({ id, by, at, reason, kept }) => (
          <li key={id}>
            <span>{words.removedLine(by.name, format.since(at), reason)}</span>
            {kept ? (
              <Button
                disabled={writing.busy}
                title={words.discardHow}
                onClick={() => writing.write({ path: `/photos/${id}/discard`, body: { reason } })}
              >
                {words.discard}
              </Button>
            ) : (
              <span className="note">{words.discarded}</span>
            )}
          </li>
        ))}
      </ul>
      <Refusal error={writing.error} />
    </details>
  );
}

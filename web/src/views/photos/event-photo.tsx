import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useWords } from '../../words/words.tsx';
import { usePhotoName } from './photo-name.ts';
import { PhotoViewer } from './photo-viewer.tsx';
import { photosQuery, thumbnailOf } from './photos-query.ts';
import './photos.css';

/** The photo that a line of the timeline tells of; that it was removed, where it was. */
export function EventPhoto({ engineId, photoId }: { readonly engineId: string; readonly photoId: string }) {
  const { photos: words } = useWords();
  const { data } = useQuery(photosQuery(engineId));
  const [open, setOpen] = useState<string | null>(null);
  const nameOf = usePhotoName();
  const photo = data?.items.find(({ id }) => id === photoId);
  if (photo === undefined) {
    const gone = data?.removed.some(({ id }) => id === photoId) === true;
    return gone ? <span className="note line">{words.removed}</span> : null;
  }
  return (
    <>
      <button
        type="button"
        className="event-photo"
        aria-label={words.open(nameOf(photo))}
        onClick={() => setOpen(photo.id)}
      >
        {photo.width === null ? (
          <span className="photo-paper">PDF</span>
        ) : (
          <img src={thumbnailOf(photo)} alt="" loading="lazy" />
        )}
      </button>
      {open === null ? null : (
        <PhotoViewer photos={data?.items ?? []} id={open} onShow={setOpen} onClose={() => setOpen(null)} />
      )}
    </>
  );
}

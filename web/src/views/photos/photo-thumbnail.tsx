import { useState } from 'react';
import type { Photo } from '#contracts/photos.ts';
import { useWords } from '../../words/words.tsx';
import { usePhotoName } from './photo-name.ts';
import { PhotoViewer } from './photo-viewer.tsx';
import { thumbnailOf } from './photos-query.ts';
import './photos.css';

interface PhotoThumbnailProps {
  readonly photo: Photo;
  /** Those that are turned to from the large one. */
  readonly among: readonly Photo[];
  /** Beside a line of a list. */
  readonly small?: boolean;
}

/** A photo, small; a tap opens it large. */
export function PhotoThumbnail({ photo, among, small = false }: PhotoThumbnailProps) {
  const { photos: words } = useWords();
  const [open, setOpen] = useState<string | null>(null);
  const name = usePhotoName()(photo);
  return (
    <>
      <button
        type="button"
        className={small ? 'event-photo small' : 'event-photo'}
        aria-label={words.open(name)}
        onClick={() => setOpen(photo.id)}
      >
        {photo.width === null ? (
          <span className="photo-paper">PDF</span>
        ) : (
          <img src={thumbnailOf(photo)} alt="" loading="lazy" />
        )}
      </button>
      {open === null ? null : <PhotoViewer photos={among} id={open} onShow={setOpen} onClose={() => setOpen(null)} />}
    </>
  );
}

import { useState } from 'react';
import type { Photo } from '#contracts/photos.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { usePhotoName } from './photo-name.ts';
import { PhotoViewer } from './photo-viewer.tsx';
import { kilobytes, thumbnailOf } from './photos-query.ts';
import './photos.css';

function Tile({ photo, onOpen }: { readonly photo: Photo; readonly onOpen: () => void }) {
  const { photos: words } = useWords();
  const format = useFormat();
  const name = usePhotoName()(photo);
  return (
    <li className="photo-tile">
      {photo.width === null ? (
        <span className="photo-paper">PDF</span>
      ) : (
        <img src={thumbnailOf(photo)} alt="" loading="lazy" width={photo.width} height={photo.height ?? 0} />
      )}
      <button type="button" className="photo-open" aria-label={words.open(name)} onClick={onOpen}>
        <span className="photo-name">{name}</span>
      </button>
      <span className="note num">
        {photo.width === null ? words.document(format.number(kilobytes(photo.bytes))) : format.since(photo.takenAt)}
      </span>
    </li>
  );
}

/** Photos side by side; one of them opens large, and from there the others. */
export function PhotoStrip({ photos, label }: { readonly photos: readonly Photo[]; readonly label: string }) {
  const [open, setOpen] = useState<string | null>(null);
  if (photos.length === 0) return null;
  return (
    <>
      <ul className="photo-strip" aria-label={label}>
        {photos.map((photo) => (
          <Tile key={photo.id} photo={photo} onOpen={() => setOpen(photo.id)} />
        ))}
      </ul>
      {open === null ? null : <PhotoViewer photos={photos} id={open} onShow={setOpen} onClose={() => setOpen(null)} />}
    </>
  );
}

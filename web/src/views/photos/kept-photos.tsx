import { dropPhoto, type ShownPhoto } from '../../app/photo-outbox.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { OwnPicture } from './own-picture.tsx';

function Kept({ photo }: { readonly photo: ShownPhoto }) {
  const { photos: words } = useWords();
  const { refusal, sent } = photo;
  return (
    <li className="kept-photo">
      <OwnPicture file={photo.file} />
      <div>
        {photo.caption === '' ? null : <b>{photo.caption}</b>}
        {refusal === null ? (
          <>
            <span className="note">{sent === null ? words.waits : words.sending(`${Math.floor(sent * 100)} %`)}</span>
            <progress max={1} value={sent ?? 0} aria-label={words.sending('')} />
          </>
        ) : (
          <>
            <span className="field-error" role="alert">
              {words.refused(refusal.detail)}
            </span>
            <Button onClick={() => void dropPhoto(photo.key)}>{words.forget}</Button>
          </>
        )}
      </div>
    </li>
  );
}

/** What this terminal has taken and the server has not: how far it is, or why it was refused. */
export function KeptPhotos({ photos }: { readonly photos: readonly ShownPhoto[] }) {
  if (photos.length === 0) return null;
  return (
    <ul className="kept-photos">
      {photos.map((photo) => (
        <Kept key={photo.key} photo={photo} />
      ))}
    </ul>
  );
}

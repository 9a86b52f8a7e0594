import { useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { CameraSign } from '../photos/camera-sign.tsx';
import { OwnPicture } from '../photos/own-picture.tsx';
import { PhotoSheet } from '../photos/photo-sheet.tsx';
import { useGoodFiles } from '../photos/use-good-files.ts';
import type { FirstPhoto } from './use-first-photos.ts';
import '../photos/photos.css';
import './first-photos.css';

interface FirstPhotosProps {
  readonly photos: readonly FirstPhoto[];
  readonly add: (files: readonly File[], caption: string) => void;
  readonly drop: (key: string) => void;
}

function Taken({ photos, drop }: Pick<FirstPhotosProps, 'photos' | 'drop'>) {
  const { takeIn: words } = useWords().counter;
  if (photos.length === 0) return null;
  return (
    <ul className="kept-photos" aria-label={words.photosTaken(photos.length)}>
      {photos.map(({ key, file, caption }, index) => (
        <li key={key} className="kept-photo">
          <OwnPicture file={file} />
          <div>
            <b>{caption || words.photo(index + 1)}</b>
            <Button aria-label={words.dropPhotoOf(caption || words.photo(index + 1))} onClick={() => drop(key)}>
              {words.dropPhoto}
            </Button>
          </div>
        </li>
      ))}
    </ul>
  );
}

function TakingDialog({ photos, add, drop, onClose }: FirstPhotosProps & { readonly onClose: () => void }) {
  const { takeIn: words } = useWords().counter;
  const [caption, setCaption] = useState('');
  const { take, faults } = useGoodFiles((files) => add(files, caption.trim()));
  return (
    <PhotoSheet
      title={words.photosTitle}
      caption={caption}
      onCaption={setCaption}
      onFiles={take}
      faults={faults}
      onClose={onClose}
    >
      <Taken photos={photos} drop={drop} />
      <p className="note" role="status">
        {photos.length === 0 ? '' : words.photosTaken(photos.length)}
      </p>
    </PhotoSheet>
  );
}

/** Photos of the state in which an engine comes in, taken before it is: they go with it once it is taken in. */
export function FirstPhotos(props: FirstPhotosProps) {
  const { takeIn: words } = useWords().counter;
  const [taking, setTaking] = useState(false);
  return (
    <fieldset className="first-photos">
      <legend>{words.photos}</legend>
      <p className="note">{words.photosHint}</p>
      <Taken photos={props.photos} drop={props.drop} />
      <Button big onClick={() => setTaking(true)}>
        <CameraSign />
        {words.takePhotos}
      </Button>
      {taking ? <TakingDialog {...props} onClose={() => setTaking(false)} /> : null}
    </fieldset>
  );
}

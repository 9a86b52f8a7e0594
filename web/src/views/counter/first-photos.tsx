import { useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
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
  /** Of a take-in that was not finished: they may show this engine, or another. */
  readonly earlier: readonly FirstPhoto[];
  readonly takeEarlier: () => void;
  readonly dropEarlier: () => void;
}

type TakingProps = Pick<FirstPhotosProps, 'photos' | 'add' | 'drop'>;

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

function TakingDialog({ photos, add, drop, onClose }: TakingProps & { readonly onClose: () => void }) {
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

/** Photos that this person took for a take-in that was not finished: in nobody's form until they say whose they are. */
function Earlier({
  earlier,
  takeEarlier,
  dropEarlier,
}: Pick<FirstPhotosProps, 'earlier' | 'takeEarlier' | 'dropEarlier'>) {
  const { takeIn: words } = useWords().counter;
  const format = useFormat();
  const [first] = earlier;
  if (first === undefined) return null;
  return (
    <div className="earlier-photos">
      <p role="status">{words.earlierPhotos(earlier.length, format.since(first.takenAt))}</p>
      <ul className="kept-photos" aria-label={words.earlierTaken}>
        {earlier.map(({ key, file, caption }, index) => (
          <li key={key} className="kept-photo">
            <OwnPicture file={file} />
            <b>{caption || words.photo(index + 1)}</b>
          </li>
        ))}
      </ul>
      <div className="earlier-acts">
        <Button onClick={takeEarlier}>{words.takeEarlier}</Button>
        <Button onClick={dropEarlier}>{words.dropEarlier}</Button>
      </div>
    </div>
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
      <Earlier {...props} />
      <Taken photos={props.photos} drop={props.drop} />
      <Button big onClick={() => setTaking(true)}>
        <CameraSign />
        {words.takePhotos}
      </Button>
      {taking ? <TakingDialog {...props} onClose={() => setTaking(false)} /> : null}
    </fieldset>
  );
}

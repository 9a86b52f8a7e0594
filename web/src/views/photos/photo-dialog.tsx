import { type DragEvent, useId, useState } from 'react';
import { usePhotosKept } from '../../app/photo-outbox.ts';
import { useMedia } from '../../app/use-media.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { KeptPhotos } from './kept-photos.tsx';
import { LiveCamera } from './live-camera.tsx';
import type { PhotoTarget } from './photos-query.ts';
import { useTaking } from './use-taking.ts';

/** A phone turns its own format into JPEG when asked for these alone. */
const TAKEN = 'image/jpeg,image/png,image/webp,application/pdf';

function FileKey({
  label,
  main,
  camera,
  onFiles,
}: {
  label: string;
  main?: boolean;
  camera?: boolean;
  onFiles: (files: File[]) => void;
}) {
  const id = useId();
  return (
    <>
      <input
        id={id}
        className="file-key"
        type="file"
        multiple={camera !== true}
        accept={camera === true ? 'image/jpeg,image/png' : TAKEN}
        {...(camera === true ? { capture: 'environment' as const } : {})}
        onChange={({ target }) => {
          onFiles([...(target.files ?? [])]);
          target.value = '';
        }}
      />
      <label htmlFor={id} className={main === true ? 'btn main big' : 'btn big'}>
        {label}
      </label>
    </>
  );
}

/** Camera, files and drag-and-drop; each is kept at once and sent from there, so several may be taken one after the other. */
export function PhotoDialog({ target, onClose }: { readonly target: PhotoTarget; readonly onClose: () => void }) {
  const { photos: words } = useWords();
  const [caption, setCaption] = useState('');
  const [over, setOver] = useState(false);
  const [since] = useState(() => Date.now());
  const phone = useMedia('(pointer: coarse) and (max-width: 900px)');
  const { take, faults, taken } = useTaking(target, caption.trim());
  const kept = usePhotosKept().filter(
    ({ jobId, order, refusal }) => jobId === target.jobId && (order >= since || refusal !== null),
  );
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    take([...event.dataTransfer.files]);
  };
  return (
    <Dialog
      title={words.takeTitle(target.words)}
      open
      onClose={onClose}
      acts={
        <Button big onClick={onClose}>
          {words.done}
        </Button>
      }
    >
      {/* biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the file key beside it is the first */}
      <div
        className={over ? 'photo-take over' : 'photo-take'}
        onDragOver={(event) => {
          event.preventDefault();
          setOver(true);
        }}
        onDragLeave={() => setOver(false)}
        onDrop={drop}
      >
        {phone ? (
          <FileKey label={words.takePhone} main camera onFiles={take} />
        ) : (
          <LiveCamera onTaken={(file) => take([file])} />
        )}
        <Field label={words.caption} big>
          {(input) => (
            <input
              {...input}
              maxLength={300}
              value={caption}
              onChange={({ target: field }) => setCaption(field.value)}
            />
          )}
        </Field>
        <div className="photo-files">
          <FileKey label={words.choose} onFiles={take} />
          {phone ? null : <span className="note">{words.drop}</span>}
        </div>
        {faults.map((fault) => (
          <p key={fault} className="field-error" role="alert">
            {fault}
          </p>
        ))}
        <KeptPhotos photos={kept} />
        <p className="note" role="status">
          {taken === 0 ? '' : words.takenSo(taken, kept.length)}
        </p>
      </div>
    </Dialog>
  );
}

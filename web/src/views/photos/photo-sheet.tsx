import { type DragEvent, type ReactNode, useId, useState } from 'react';
import { useMedia } from '../../app/use-media.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { LiveCamera } from './live-camera.tsx';
import './photos.css';

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

interface PhotoSheetProps {
  readonly title: string;
  /** What is written under those taken after it. */
  readonly caption: string;
  readonly onCaption: (caption: string) => void;
  readonly onFiles: (files: readonly File[]) => void;
  /** Of files that were not kept. */
  readonly faults: readonly string[];
  readonly onClose: () => void;
  /** What was taken so far. */
  readonly children: ReactNode;
}

/** Camera, files and drag-and-drop, whatever becomes of what they give. */
export function PhotoSheet({ title, caption, onCaption, onFiles, faults, onClose, children }: PhotoSheetProps) {
  const { photos: words } = useWords();
  const [over, setOver] = useState(false);
  const phone = useMedia('(pointer: coarse) and (max-width: 900px)');
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    onFiles([...event.dataTransfer.files]);
  };
  return (
    <Dialog
      title={title}
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
          <FileKey label={words.takePhone} main camera onFiles={onFiles} />
        ) : (
          <LiveCamera onTaken={(file) => onFiles([file])} />
        )}
        <Field label={words.caption} big>
          {(input) => (
            <input
              {...input}
              maxLength={300}
              value={caption}
              onChange={({ target: field }) => onCaption(field.value)}
            />
          )}
        </Field>
        <div className="photo-files">
          <FileKey label={words.choose} onFiles={onFiles} />
          {phone ? null : <span className="note">{words.drop}</span>}
        </div>
        {faults.map((fault) => (
          <p key={fault} className="field-error" role="alert">
            {fault}
          </p>
        ))}
        {children}
      </div>
    </Dialog>
  );
}

import { type FormEvent, type ReactNode, useEffect, useRef, useState } from 'react';
import { Button } from '../kit/button.tsx';
import { Dialog } from '../kit/dialog.tsx';
import { Field } from '../kit/field.tsx';
import { useWords } from '../words/words.tsx';
import { type CameraFault, openCamera, readFrom, readPhoto } from './camera.ts';
import './scan.css';

interface ScanDialogProps {
  readonly onScan: (text: string) => void;
  readonly onClose: () => void;
  /** Where else one might have wanted to go. */
  readonly links?: ReactNode;
}

/** Reads a label with the camera, or by hand what is printed beneath its symbol. */
export function ScanDialog({ onScan, onClose, links }: ScanDialogProps) {
  const words = useWords().scan;
  const [typed, setTyped] = useState('');
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (typed.trim() !== '') onScan(typed.trim());
  };
  return (
    <Dialog title={words.title} open onClose={onClose}>
      <CameraPicture onScan={onScan} />
      <form className="scan-typed" onSubmit={submit}>
        <Field label={words.typed} hint={words.typedHint} big>
          {(input) => (
            <input
              {...input}
              className="num"
              autoComplete="off"
              autoCapitalize="characters"
              spellCheck={false}
              maxLength={60}
              value={typed}
              onChange={({ target }) => setTyped(target.value)}
            />
          )}
        </Field>
        <div className="dialog-acts">
          <Button type="submit" big kind="main" disabled={typed.trim() === ''}>
            {words.look}
          </Button>
          {links}
          <Button big onClick={onClose}>
            {words.leave}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

function CameraPicture({ onScan }: Pick<ScanDialogProps, 'onScan'>) {
  const words = useWords().scan;
  const video = useRef<HTMLVideoElement>(null);
  const [fault, setFault] = useState<CameraFault | null>(null);
  const heard = useRef(onScan);
  heard.current = onScan;
  useEffect(() => {
    const ended = new AbortController();
    void (async () => {
      const stream = await openCamera();
      if (typeof stream === 'string') return setFault(stream);
      const stop = () => {
        for (const track of stream.getTracks()) track.stop();
      };
      ended.signal.addEventListener('abort', stop);
      if (ended.signal.aborted || video.current === null) return stop();
      video.current.srcObject = stream;
      await video.current.play().catch(() => undefined);
      const text = await readFrom(video.current, ended.signal);
      if (text !== undefined && !ended.signal.aborted) heard.current(text);
    })();
    return () => ended.abort();
  }, []);
  if (fault !== null) return <Photo fault={fault} onScan={onScan} />;
  return (
    <figure className="camera">
      <video ref={video} muted playsInline aria-label={words.camera} />
      <figcaption className="note">{words.aim}</figcaption>
    </figure>
  );
}

interface PhotoProps extends Pick<ScanDialogProps, 'onScan'> {
  readonly fault: CameraFault;
}

/** Where there is no live picture: a photo of the label, by a phone's own camera, is read as well. */
function Photo({ fault, onScan }: PhotoProps) {
  const words = useWords().scan;
  const [state, setState] = useState<'none' | 'reading' | 'unread'>('none');
  const read = async (file: File | undefined) => {
    if (file === undefined) return;
    setState('reading');
    const text = await readPhoto(file);
    if (text === undefined) setState('unread');
    else onScan(text);
  };
  return (
    <div className="camera-fault">
      <p>{words.faults[fault]}</p>
      <Field label={words.photo} error={state === 'unread' ? words.unread : undefined}>
        {(input) => (
          <input
            {...input}
            type="file"
            accept="image/*"
            capture="environment"
            onChange={({ target }) => void read(target.files?.[0])}
          />
        )}
      </Field>
      {state === 'reading' ? <p role="status">{words.reading}</p> : null}
    </div>
  );
}

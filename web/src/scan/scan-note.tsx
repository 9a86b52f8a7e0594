import { useEffect } from 'react';
import { ScanSign } from '../drawings/scan-sign.tsx';
import { Button } from '../kit/button.tsx';
import { useWords } from '../words/words.tsx';
import type { ScanDone } from './registry.ts';
import './scan.css';

export type Told =
  | { readonly kind: 'looking' }
  | { readonly kind: 'done'; readonly name: string; readonly done: ScanDone }
  | { readonly kind: 'refused'; readonly why: string };

const STAYS_MS = 9000;

interface NoteProps {
  readonly told: Told | null;
  readonly onClose: () => void;
}

/** Says quietly what was scanned and what came of it; it goes by itself or with the next tap, what went amiss with a tap alone. */
export function ScanNote({ told, onClose }: NoteProps) {
  const words = useWords().scan;
  const amiss = told?.kind === 'refused' || (told?.kind === 'done' && told.done.amiss === true);
  useEffect(() => {
    if (told === null || amiss) return;
    const timer = setTimeout(onClose, STAYS_MS);
    return () => clearTimeout(timer);
  }, [told, amiss, onClose]);
  const said = told !== null && told.kind !== 'looking';
  useEffect(() => {
    if (!said) return;
    const elsewhere = ({ target }: PointerEvent) => {
      if (!(target instanceof Element && target.closest('.scan-note') !== null)) onClose();
    };
    addEventListener('pointerdown', elsewhere);
    return () => removeEventListener('pointerdown', elsewhere);
  }, [said, onClose]);
  return (
    <div className="scan-note-place" role="status" aria-live="polite">
      {told === null ? null : (
        <div className={amiss ? 'scan-note amiss' : 'scan-note'}>
          <ScanSign size={28} />
          <p>
            {told.kind === 'looking' ? words.looking : null}
            {told.kind === 'refused' ? (
              <>
                <b>{words.refused}</b> {told.why}
              </>
            ) : null}
            {told.kind === 'done' ? (
              <>
                <b>{told.name}</b> {told.done.did}
              </>
            ) : null}
          </p>
          {told.kind === 'done' && told.done.undo !== undefined ? (
            <Button
              onClick={() => {
                told.done.undo?.();
                onClose();
              }}
            >
              {words.back}
            </Button>
          ) : null}
          {told.kind === 'looking' ? null : (
            <Button aria-label={words.close} onClick={onClose}>
              ×
            </Button>
          )}
        </div>
      )}
    </div>
  );
}

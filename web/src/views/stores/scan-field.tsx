import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { Scanned } from '#contracts/labels.ts';
import type { StoresBoard } from '#contracts/stores.ts';
import { RefusedError, send } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';

export interface Scan {
  readonly text: string;
  /** Null: nothing here is called that. */
  readonly found: Scanned | null;
}

interface FieldProps {
  readonly onScan: (scan: Scan) => void;
}

/** Takes a reader that types and presses Enter, or fingers. It keeps the focus, so that the next label can follow. */
export function ScanField({ onScan }: FieldProps) {
  const { stores: words } = useWords();
  const [text, setText] = useState('');
  const [error, setError] = useState<Error | null>(null);
  const input = useRef<HTMLInputElement>(null);
  // A reader types wherever the focus is: on a screen with a keyboard it begins here.
  useEffect(() => {
    if (matchMedia('(pointer: fine)').matches) input.current?.focus({ preventScroll: true });
  }, []);
  const look = async (event: FormEvent) => {
    event.preventDefault();
    const typed = text.trim();
    if (typed === '') return;
    setError(null);
    input.current?.select();
    try {
      onScan({ text: typed, found: await send<Scanned>('/scans', { text: typed }) });
    } catch (failure) {
      if (failure instanceof RefusedError && failure.code === 'not-found') return onScan({ text: typed, found: null });
      setError(failure instanceof Error ? failure : new Error(String(failure)));
    }
  };
  return (
    <form className="scan" onSubmit={look}>
      <input
        ref={input}
        aria-label={words.scan}
        placeholder={words.scan}
        autoComplete="off"
        autoCapitalize="off"
        spellCheck={false}
        maxLength={60}
        value={text}
        onChange={({ target }) => setText(target.value)}
      />
      <Button type="submit">{words.look}</Button>
      <Refusal error={error} />
    </form>
  );
}

interface SaidProps {
  readonly scan: Scan;
  readonly board: StoresBoard;
  readonly onPart: (partId: string) => void;
  readonly onClose: () => void;
}

/** To a place of this view by its id, with the focus. */
export const goTo = (id: string) => {
  const place = document.getElementById(id);
  place?.scrollIntoView({ block: 'start' });
  place?.focus();
};

/** What a scanned bin or tray is, and where it leads. */
export function ScanSaid({ scan: { text, found }, board, onPart, onClose }: SaidProps) {
  const { scanned: words } = useWords().stores;
  if (found === null) {
    return (
      <div className="scan-said" role="status">
        <p>
          <b>{words.nothing(text)}</b> {words.nothingWhat}
        </p>
      </div>
    );
  }
  switch (found.kind) {
    case 'part':
    case 'engine':
      return null;
    case 'tray': {
      const wants = board.jobs.some(({ job }) => job.id === found.job.id);
      return (
        <div className="scan-said" role="status">
          <p>
            <b>{words.tray(found.label, found.job.number)}</b> {found.job.family} {found.job.serial}
            {wants ? '' : `. ${words.trayOff}`}
          </p>
          {wants ? <Button onClick={() => goTo(`job-${found.job.id}`)}>{words.toJob}</Button> : null}
          <Button onClick={onClose}>{words.put}</Button>
        </div>
      );
    }
    case 'bin':
      return <BinSaid bin={found} board={board} onPart={onPart} onClose={onClose} />;
  }
}

interface BinProps extends Omit<SaidProps, 'scan'> {
  readonly bin: Extract<Scanned, { kind: 'bin' }>;
}

function BinSaid({ bin, board, onPart, onClose }: BinProps) {
  const { scanned: words } = useWords().stores;
  const toPick = board.jobs.flatMap(({ job, lines }) =>
    lines
      .filter(({ state, held }) => state === 'pick now' && held.some(({ bin: code }) => code === bin.code))
      .map((line) => ({ job, line })),
  );
  return (
    <div className="scan-said" role="status">
      <p>
        <b>{words.bin(bin.code)}</b> {bin.parts.length === 0 ? words.binEmpty : ''}
      </p>
      {toPick.length === 0 ? null : (
        <p>
          {words.toPick}:{' '}
          {toPick.map(({ job, line }) => (
            <Button key={line.id} kind="main" onClick={() => goTo(`job-${job.id}`)}>
              {line.reserved} × {line.part.name}, {job.number}
            </Button>
          ))}
        </p>
      )}
      {bin.parts.length === 0 ? null : (
        <p>
          {words.lies}:{' '}
          {bin.parts.map(({ id, number, name }) => (
            <Button key={id} onClick={() => onPart(id)}>
              {words.part(number, name)}
            </Button>
          ))}
        </p>
      )}
      <div className="kit-acts">
        <LabelButton labels={[{ kind: 'bin', id: bin.id }]} />
        <Button onClick={onClose}>{words.put}</Button>
      </div>
    </div>
  );
}

import { type FormEvent, useEffect, useRef, useState } from 'react';
import type { PartName } from '#contracts/parts.ts';
import type { Scanned, StoresBoard } from '#contracts/stores.ts';
import { read } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

export interface Scan {
  readonly text: string;
  readonly found: Scanned;
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
      const found = await read<Scanned>(`/stores/scan?text=${encodeURIComponent(typed)}`);
      onScan({ text: typed, found });
    } catch (failure) {
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

const goTo = (id: string) => {
  const place = document.getElementById(id);
  place?.scrollIntoView({ block: 'start' });
  place?.focus();
};

/** What a scanned bin or tray is, and where it leads. */
export function ScanSaid({ scan: { text, found }, board, onPart, onClose }: SaidProps) {
  const { scanned: words } = useWords().stores;
  switch (found.kind) {
    case 'part':
      return null;
    case 'nothing':
      return (
        <div className="scan-said" role="status">
          <p>
            <b>{words.nothing(text)}</b> {words.nothingWhat}
          </p>
        </div>
      );
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
  readonly bin: { readonly code: string; readonly parts: readonly PartName[] };
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
      <Button onClick={onClose}>{words.put}</Button>
    </div>
  );
}

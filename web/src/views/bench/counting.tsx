import type { ReactNode } from 'react';
import { Button } from '../../kit/button.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useWords } from '../../words/words.tsx';
import type { Counts } from './counts.ts';

export interface CountLine {
  readonly id: string;
  readonly name: string;
  readonly note?: ReactNode;
  /** Set where the number to expect may be seen: one tap then says that all are there. */
  readonly all?: number;
  readonly most?: number;
}

interface CountLinesProps {
  readonly label: string;
  readonly lines: readonly CountLine[];
  readonly counts: Counts;
  readonly disabled?: boolean;
}

/** Lines to count, each between two big keys. */
export function CountLines({ label, lines, counts, disabled = false }: CountLinesProps) {
  const { counting: words } = useWords().myBench;
  return (
    <ul className="count-lines" aria-label={label}>
      {lines.map(({ id, name, note, all, most = 9999 }) => (
        <li key={id}>
          <div className="count-what">
            <b>{name}</b>
            {note === undefined ? null : <p className="note">{note}</p>}
          </div>
          <div className="count-how">
            {all === undefined ? null : (
              <Button
                big
                aria-label={words.allOf(all, name)}
                aria-pressed={counts.of(id) === all}
                disabled={disabled}
                onClick={() => counts.set(id, all)}
              >
                {words.all(all)}
              </Button>
            )}
            <Stepper
              label={words.howMany(name)}
              value={counts.of(id)}
              max={most}
              disabled={disabled}
              onChange={(count) => counts.set(id, count)}
            />
          </div>
        </li>
      ))}
    </ul>
  );
}

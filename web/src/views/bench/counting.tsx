import { type ReactNode, useState } from 'react';
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
  /** Counted without knowing what should be there: each line stands blank until it is keyed, none there included. */
  readonly blind?: boolean;
}

/** Lines to count, each between two big keys. */
export function CountLines({ label, lines, counts, disabled = false, blind = false }: CountLinesProps) {
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
              value={blind && !counts.isKeyed(id) ? null : counts.of(id)}
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

/**
 * Keeps a blind count from being committed while lines stand blank: says how many, and leads to the first of them. The button
 * itself stays open, since a number just typed counts only once its box is left.
 */
export function useBlanks(counts: Counts, lines: readonly { readonly id: string }[]) {
  const { counting: words } = useWords().myBench;
  const [asked, setAsked] = useState(false);
  const left = lines.filter(({ id }) => !counts.isKeyed(id)).length;
  return {
    note:
      left === 0 ? null : (
        <p className={asked ? 'hot' : 'note'} role="status">
          {words.left(left)}
        </p>
      ),
    /** Commits the count when no line is blank. */
    commit: (go: () => void) => {
      if (left === 0) return go();
      setAsked(true);
      document.querySelector<HTMLInputElement>('.count-lines input:placeholder-shown')?.focus();
    },
  };
}

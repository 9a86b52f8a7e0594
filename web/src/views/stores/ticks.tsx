import { type ReactNode, useRef, useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

export interface Ticks {
  readonly chosen: ReadonlySet<string>;
  /** Chooses or leaves one; with Shift, all from the last one so touched do as it does. */
  readonly toggle: (id: string, range: boolean) => void;
  readonly choose: (ids: readonly string[]) => void;
}

/** Which of those shown are chosen. */
export function useTicks(shown: readonly string[]): Ticks {
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const last = useRef<string | null>(null);
  const toggle = (id: string, range: boolean) => {
    const ends = [shown.indexOf(last.current ?? id), shown.indexOf(id)].toSorted((a, b) => a - b);
    const touched = range && ends[0] !== -1 ? shown.slice(ends[0], (ends[1] ?? 0) + 1) : [id];
    last.current = id;
    const left = [...chosen].filter((one) => !touched.includes(one));
    setChosen(new Set(chosen.has(id) ? left : [...left, ...touched]));
  };
  return { chosen, toggle, choose: (ids) => setChosen(new Set(ids)) };
}

interface BarProps {
  readonly ticks: Ticks;
  readonly shown: readonly string[];
  /** How the button is called that changes so many of them. */
  readonly change: (count: number) => string;
  /** Where they are changed; they are told in the order in which they are shown. */
  readonly dialog: (ids: readonly string[], close: () => void) => ReactNode;
}

/** The acts on what is chosen. */
export function TickBar({ ticks, shown, change, dialog }: BarProps) {
  const { partChanges: words } = useWords();
  const [open, setOpen] = useState(false);
  const { chosen, choose } = ticks;
  return (
    <div className="kit-acts tick-bar">
      <Button disabled={shown.length === 0} onClick={() => choose(shown.every((id) => chosen.has(id)) ? [] : shown)}>
        {shown.length > 0 && shown.every((id) => chosen.has(id)) ? words.none : words.all}
      </Button>
      <Button kind="main" disabled={chosen.size === 0} onClick={() => setOpen(true)}>
        {change(chosen.size)}
      </Button>
      <span className="note">{words.hint}</span>
      {open
        ? dialog([...shown.filter((id) => chosen.has(id)), ...[...chosen].filter((id) => !shown.includes(id))], () =>
            setOpen(false),
          )
        : null}
    </div>
  );
}

interface TickProps {
  readonly ticks: Ticks;
  readonly of: { readonly id: string; readonly name: string };
}

export function Tick({ ticks, of }: TickProps) {
  const { partChanges: words } = useWords();
  const shift = useRef(false);
  return (
    <label
      className="tick"
      onPointerDown={({ shiftKey }) => {
        shift.current = shiftKey;
      }}
      onKeyDown={({ shiftKey }) => {
        shift.current = shiftKey;
      }}
    >
      <input
        type="checkbox"
        aria-label={words.tick(of.name)}
        checked={ticks.chosen.has(of.id)}
        onChange={() => ticks.toggle(of.id, shift.current)}
      />
    </label>
  );
}

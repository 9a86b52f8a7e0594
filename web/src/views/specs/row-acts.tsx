import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { moved, without } from './list-order.ts';

interface MoveProps {
  /** What it is called: "Fastener 3". */
  readonly what: string;
  readonly at: number;
  readonly count: number;
  readonly onMove: (by: -1 | 1) => void;
  readonly busy?: boolean;
}

/** One up, one down; nothing where there is but one. */
export function MoveActs({ what, at, count, onMove, busy = false }: MoveProps) {
  const { specForms: words } = useWords();
  if (count < 2) return null;
  return (
    <>
      <Button aria-label={words.earlier(what)} disabled={busy || at === 0} onClick={() => onMove(-1)}>
        {words.up}
      </Button>
      <Button aria-label={words.later(what)} disabled={busy || at === count - 1} onClick={() => onMove(1)}>
        {words.down}
      </Button>
    </>
  );
}

interface RowProps<Entry> {
  readonly what: string;
  readonly list: readonly Entry[];
  readonly at: number;
  readonly onChange: (list: Entry[]) => void;
}

/** What may be done with a row of a list: one up, one down, out. */
export function RowActs<Entry>({ what, list, at, onChange }: RowProps<Entry>) {
  const { specForms: words } = useWords();
  return (
    <span className="row-acts">
      <MoveActs what={what} at={at} count={list.length} onMove={(by) => onChange(moved(list, at, by))} />
      <Button aria-label={words.takeOut(what)} onClick={() => onChange(without(list, at))}>
        {words.out}
      </Button>
    </span>
  );
}

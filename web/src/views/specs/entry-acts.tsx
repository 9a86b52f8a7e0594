import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { moved } from './list-order.ts';
import { MoveActs } from './row-acts.tsx';
import { type Draft, useKeeping } from './use-draft.ts';

interface Props {
  readonly draft: Draft;
  readonly list: 'places' | 'fasteners' | 'valves' | 'proofs';
  readonly at: number;
  readonly onEdit: () => void;
}

/** What may be done with an entry of the draft where it stands: changed, or kept one up or down in its list. */
export function EntryActs({ draft, list, at, onEdit }: Props) {
  const { specs: words } = useWords();
  const keeping = useKeeping(draft);
  const { document } = draft;
  const name = document[list][at]?.name ?? '';
  const withMove = {
    places: (by: -1 | 1) => ({ ...document, places: moved(document.places, at, by) }),
    fasteners: (by: -1 | 1) => ({ ...document, fasteners: moved(document.fasteners, at, by) }),
    valves: (by: -1 | 1) => ({ ...document, valves: moved(document.valves, at, by) }),
    proofs: (by: -1 | 1) => ({ ...document, proofs: moved(document.proofs, at, by) }),
  }[list];
  return (
    <span className="entry-acts no-print">
      <Button aria-label={words.editOf(name)} onClick={onEdit}>
        {words.edit}
      </Button>
      <MoveActs
        what={name}
        at={at}
        count={document[list].length}
        busy={keeping.busy}
        onMove={(by) => keeping.keep(withMove(by), () => undefined)}
      />
      <Refusal error={keeping.error} />
    </span>
  );
}

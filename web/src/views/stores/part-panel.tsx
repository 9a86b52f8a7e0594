import { useInfiniteQuery } from '@tanstack/react-query';
import { useDeferredValue } from 'react';
import { Failed } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { MorePages } from '../../kit/more-pages.tsx';
import { SearchField } from '../../kit/search-field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { PartChangeDialog } from './part-change-dialog.tsx';
import { PartSheetView } from './part-sheet.tsx';
import { partPagesQuery } from './stores-queries.ts';
import { Tick, TickBar, useTicks } from './ticks.tsx';
import './found.css';

interface PanelProps {
  readonly search: string;
  readonly partId: string | null;
  readonly onSearch: (text: string) => void;
  readonly onPart: (partId: string | null) => void;
  /** Left out where the panel is the whole sheet. */
  readonly onClose?: () => void;
  /** Several may be chosen and changed at once. */
  readonly bulk?: boolean;
}

/** Finds a part by number, name or size, and shows all that is known of it. */
export function PartPanel({ search, partId, onSearch, onPart, onClose, bulk = false }: PanelProps) {
  const { part: words } = useWords().stores;
  return (
    <section className="parts raised" aria-label={words.panel}>
      <header>
        <h2>{words.panel}</h2>
        {partId === null ? null : <Button onClick={() => onPart(null)}>{words.back}</Button>}
        {onClose === undefined ? null : <Button onClick={onClose}>{words.close}</Button>}
      </header>
      {partId === null ? (
        <PartSearch search={search} onSearch={onSearch} onPart={onPart} bulk={bulk} />
      ) : (
        <PartSheetView partId={partId} onPart={onPart} />
      )}
    </section>
  );
}

function PartSearch({ search, onSearch, onPart, bulk }: Omit<Required<PanelProps>, 'partId' | 'onClose'>) {
  const { stores, partChanges } = useWords();
  const { part: words, picker, reading } = stores;
  const wanted = useDeferredValue(search.trim());
  const parts = useInfiniteQuery(partPagesQuery(wanted));
  const found = parts.data?.pages.flatMap(({ items }) => items);
  const shown = found?.map(({ id }) => id) ?? [];
  const ticks = useTicks(shown);
  return (
    <>
      <SearchField label={words.search} hint={picker.hint} most={60} value={search} onChange={onSearch} />
      {parts.isPending ? <Skeleton label={reading} lines={4} /> : null}
      {parts.isError ? <Failed error={parts.error} again={() => void parts.refetch()} /> : null}
      {found?.length === 0 ? <p>{words.none}</p> : null}
      {bulk ? (
        <TickBar
          ticks={ticks}
          shown={shown}
          change={partChanges.open}
          dialog={(partIds, close) => <PartChangeDialog partIds={partIds} onClose={close} />}
        />
      ) : null}
      <ul className={bulk ? 'found-list ticked' : 'found-list'}>
        {found?.map((part) => (
          <li key={part.id}>
            {bulk ? <Tick ticks={ticks} of={part} /> : null}
            <button type="button" className="found" onClick={() => onPart(part.id)}>
              <span>
                <b>{part.name}</b> <span className="note num">{part.number}</span>
                {part.retired ? <span className="note"> {words.retired}</span> : null}
              </span>
              <span className="note num">{[...new Set(part.lots.map(({ bin }) => bin))].join(', ')}</span>
              <span className="num">{picker.available(part.available)}</span>
            </button>
          </li>
        ))}
      </ul>
      <MorePages of={parts}>{words.more}</MorePages>
    </>
  );
}

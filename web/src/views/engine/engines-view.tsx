import { keepPreviousData, useInfiniteQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import type { EngineLine, EngineList } from '#contracts/engines.ts';
import { read } from '../../app/api.ts';
import { Choice } from '../../kit/choice.tsx';
import { MorePages } from '../../kit/more-pages.tsx';
import { SearchField } from '../../kit/search-field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from './not-read.tsx';
import './engines.css';

type Which = 'in-shop' | 'all';
const PAUSE_MS = 200;

/** What was typed, once the typing pauses. */
function useSettled(typed: string): string {
  const [settled, setSettled] = useState(typed);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(typed), PAUSE_MS);
    return () => clearTimeout(timer);
  }, [typed]);
  return settled;
}

function useEngines(search: string, state: Which) {
  return useInfiniteQuery({
    queryKey: ['engines', state, search],
    queryFn: ({ pageParam, signal }) => {
      const asked = new URLSearchParams({ state, limit: '50' });
      if (search !== '') asked.set('search', search);
      if (pageParam !== '') asked.set('after', pageParam);
      return read<EngineList>(`/engines?${asked}`, signal);
    },
    initialPageParam: '',
    getNextPageParam: ({ next }) => next,
    placeholderData: keepPreviousData,
    meta: { follows: 'every change' },
  });
}

function EngineRow({ engine }: { readonly engine: EngineLine }) {
  const words = useWords().engine;
  const format = useFormat();
  const { lastVisit, holder, place } = engine;
  return (
    <li className="engine-line">
      <div>
        <Link to="/engines/$engineId" params={{ engineId: engine.id }} className="line-link">
          <b>{engine.family.name}</b> <span className="num nowrap">{engine.serial}</span>
        </Link>
        <span className="note line">{engine.owner.name}</span>
      </div>
      <div>
        {holder === null ? '–' : words.heldBy(place?.name === holder.name ? null : (place?.name ?? null), holder.name)}
        {holder === null ? null : <span className="note num line">{words.since(format.since(holder.since))}</span>}
      </div>
      <div>
        {lastVisit === null ? (
          <span className="note">{words.neverIn}</span>
        ) : (
          <>
            <span className="num">
              {words.jobNumber(lastVisit.number)}, {words.hoursOf(format.decimal(lastVisit.hours))}
            </span>
            <span className="note num line">
              {lastVisit.handedBackAt === null
                ? words.inSince(format.since(lastVisit.takenInAt))
                : words.handedBack(format.since(lastVisit.handedBackAt))}
              , {words.visits(engine.visits)}
            </span>
          </>
        )}
      </div>
    </li>
  );
}

/** Engines by serial: those in the shop, or every one that was ever taken in. */
export function EnginesView() {
  const words = useWords().engine;
  const [typed, setTyped] = useState('');
  const [which, setWhich] = useState<Which>('in-shop');
  const search = useSettled(typed.trim());
  const engines = useEngines(search, which);
  const items = engines.data?.pages.flatMap((page) => page.items) ?? [];
  const none = engines.isSuccess && items.length === 0;
  return (
    <main className="engines">
      <h1>{words.title}</h1>
      <search className="engines-search">
        <SearchField label={words.search} most={120} value={typed} onChange={setTyped} />
        <Choice
          label={words.which}
          value={which}
          onChange={setWhich}
          options={[
            { value: 'in-shop', label: words.inShop },
            { value: 'all', label: words.all },
          ]}
        />
      </search>
      <p className="visually-hidden" role="status">
        {engines.isSuccess ? words.shown(items.length) : ''}
      </p>
      {engines.isPending ? <Skeleton label={words.readingList} lines={12} /> : null}
      {engines.isError && engines.data === undefined ? (
        <NotRead error={engines.error} again={() => void engines.refetch()} right="look" />
      ) : null}
      {none ? (
        search === '' && which === 'in-shop' ? (
          <Empty title={words.noneInShop}>{words.noneInShopWhy}</Empty>
        ) : (
          <Empty title={words.noneFound}>{words.noneFoundWhy}</Empty>
        )
      ) : null}
      {items.length === 0 ? null : (
        <div className="engine-heads" aria-hidden="true">
          <span>{words.engineAndOwner}</span>
          <span>{words.whereHeld}</span>
          <span>{words.lastVisit}</span>
        </div>
      )}
      <ul className="engine-lines">
        {items.map((engine) => (
          <EngineRow key={engine.id} engine={engine} />
        ))}
      </ul>
      <MorePages of={engines} coming={words.moreComing}>
        {words.more}
      </MorePages>
    </main>
  );
}

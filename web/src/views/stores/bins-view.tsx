import { keepPreviousData, useInfiniteQuery } from '@tanstack/react-query';
import { useDeferredValue, useEffect, useState } from 'react';
import type { BinStanding, BinsKept } from '#contracts/stores-desks.ts';
import { read } from '../../app/api.ts';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { MorePages } from '../../kit/more-pages.tsx';
import { SearchField } from '../../kit/search-field.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';
import { BinChangeDialog } from './bin-change-dialog.tsx';
import { BinDialog } from './bin-dialog.tsx';
import { Desks } from './desks.tsx';
import { NotYetRead } from './not-yet-read.tsx';
import { Scrolled } from './scrolled.tsx';
import { BringButton, FileLink } from './store-files.tsx';
import { Tick, TickBar, type Ticks, useTicks } from './ticks.tsx';
import './stores.css';
import './desks.css';
import './bins.css';

const useBins = (search: string) =>
  useInfiniteQuery({
    queryKey: ['stores', 'bins', search],
    queryFn: ({ pageParam, signal }) => {
      const query = new URLSearchParams({ limit: '100' });
      if (search !== '') query.set('search', search);
      if (pageParam !== '') query.set('after', pageParam);
      return read<BinsKept>(`/stores/bins?${query}`, signal);
    },
    initialPageParam: '',
    getNextPageParam: ({ next }) => next,
    placeholderData: keepPreviousData,
  });

/** Puts the focus on a bin's row as soon as it is there: scanned, it may have to be read first. */
function useRowInFocus(listed: readonly BinStanding[] | undefined) {
  const [wantedId, setWantedId] = useState<string | null>(null);
  useEffect(() => {
    if (wantedId === null || !listed?.some(({ id }) => id === wantedId)) return;
    document.getElementById(`bin-${wantedId}`)?.querySelector('button')?.focus();
    setWantedId(null);
  }, [listed, wantedId]);
  return setWantedId;
}

/** The bins, in the order they are walked past, page by page: found, put up, renamed, moved in the walk, closed. */
export function BinsView() {
  const { bins: words } = useWords().storesDesks;
  const may = useMay('stores');
  const [search, setSearch] = useState('');
  const bins = useBins(useDeferredValue(search.trim()));
  const listed = bins.data?.pages.flatMap(({ items }) => items);
  const shown = listed?.map(({ id }) => id) ?? [];
  const ticks = useTicks(shown);
  const [doing, setDoing] = useState<BinStanding | 'new' | null>(null);
  const focusRow = useRowInFocus(listed);
  useScan((scanned) => {
    if (scanned.kind !== 'bin') return undefined;
    if (!listed?.some(({ id }) => id === scanned.id)) setSearch(scanned.code);
    focusRow(scanned.id);
    return { did: words.scanned };
  });
  return (
    <main className="stores one-sheet">
      <title>{words.title}</title>
      <div className="p">
        <Desks />
        <div className="hd">
          <h1>{words.title}</h1>
          <div className="kit-acts">
            <FileLink name="bins" />
            <BringButton what="bins" />
            {may ? (
              <Button kind="main" onClick={() => setDoing('new')}>
                {words.add}
              </Button>
            ) : null}
          </div>
        </div>
        <BinSearch search={search} onSearch={setSearch} />
        <NotYetRead query={bins} label={words.reading} lines={8} />
        {listed?.length === 0 ? (
          search.trim() === '' ? (
            <Empty title={words.nothing}>{words.nothingWhat}</Empty>
          ) : (
            <p className="nothing">{words.noneFound}</p>
          )
        ) : null}
        {may ? (
          <TickBar
            ticks={ticks}
            shown={shown}
            change={words.several.open}
            dialog={(binIds, close) => <BinChangeDialog binIds={binIds} onClose={close} />}
          />
        ) : null}
        {listed === undefined || listed.length === 0 ? null : (
          <Scrolled label={words.title}>
            <BinTable bins={listed} ticks={ticks} onChange={may ? setDoing : undefined} />
          </Scrolled>
        )}
        {bins.hasNextPage ? (
          <div className="bins-more">
            <MorePages of={bins}>{words.more}</MorePages>
          </div>
        ) : null}
        {doing === null ? null : <BinDialog bin={doing === 'new' ? null : doing} onClose={() => setDoing(null)} />}
      </div>
    </main>
  );
}

function BinSearch({ search, onSearch }: { readonly search: string; readonly onSearch: (search: string) => void }) {
  const { bins: words } = useWords().storesDesks;
  return <SearchField label={words.find} hint={words.findHint} most={80} value={search} onChange={onSearch} />;
}

interface TableProps {
  readonly bins: readonly BinStanding[];
  readonly ticks: Ticks;
  readonly onChange: ((bin: BinStanding) => void) | undefined;
}

function BinTable({ bins, ticks, onChange }: TableProps) {
  const { storesDesks, partChanges } = useWords();
  const { bins: words } = storesDesks;
  return (
    <table className="bins">
      <thead>
        <tr>
          {onChange === undefined ? null : (
            <th>
              <span className="visually-hidden">{partChanges.all}</span>
            </th>
          )}
          <th>{words.bin}</th>
          <th>{words.lies}</th>
          <th className="n">{words.walk}</th>
          {onChange === undefined ? null : (
            <th>
              <span className="visually-hidden">{words.change}</span>
            </th>
          )}
        </tr>
      </thead>
      <tbody>
        {bins.map((bin) => (
          <tr key={bin.id} id={`bin-${bin.id}`}>
            {onChange === undefined ? null : (
              <td className="bin-tick">
                <Tick ticks={ticks} of={{ id: bin.id, name: bin.code }} />
              </td>
            )}
            <td className="num">
              <b>{bin.code}</b>
            </td>
            <td>
              {bin.pieces === 0 ? words.empty : words.holds(bin.parts, bin.pieces, bin.reserved)}
              {bin.closed ? <b> {words.closed}</b> : null}
            </td>
            <td className="n" data-label={words.walkShort}>
              {bin.walkOrder}
            </td>
            {onChange === undefined ? null : (
              <td>
                <div className="kit-acts">
                  <Button aria-label={words.changeOf(bin.code)} onClick={() => onChange(bin)}>
                    {words.change}
                  </Button>
                  <LabelButton labels={[{ kind: 'bin', id: bin.id }]} />
                </div>
              </td>
            )}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

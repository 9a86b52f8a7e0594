import { useQuery } from '@tanstack/react-query';
import { useDeferredValue, useState } from 'react';
import type { LabelAsked, LabelChoices, Scanned } from '#contracts/labels.ts';
import { type LabelledKind, labelledKinds } from '#domain/labels/code.ts';
import { read } from '../../app/api.ts';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Choice } from '../../kit/choice.tsx';
import { SearchField } from '../../kit/search-field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { Stepper } from '../../kit/stepper.tsx';
import { useScan } from '../../scan/registry.ts';
import { useWords } from '../../words/words.tsx';
import { BadgesSection } from './badges-section.tsx';
import { PrintForm } from './print-form.tsx';
import './labels.css';

type Chosen = ReadonlyMap<
  string,
  { readonly kind: LabelledKind; readonly id: string; readonly name: string; readonly copies: number }
>;
type Item = LabelChoices['items'][number];

/** What people call it by, as its label does. */
function calledOf(scanned: Exclude<Scanned, { kind: 'part' }>): string {
  switch (scanned.kind) {
    case 'engine':
      return scanned.serial;
    case 'tray':
      return scanned.label;
    case 'rack':
      return scanned.name;
    case 'bin':
      return scanned.code;
  }
}

/** What labels are printed of: chosen here, by hand or by scanning an old label; and badges. */
export function LabelsView() {
  const words = useWords().labels;
  const setUp = useMay('set up');
  const [kind, setKind] = useState<LabelledKind | 'badge'>(setUp && location.hash === '#badges' ? 'badge' : 'bin');
  const [chosen, setChosen] = useState<Chosen>(new Map());
  const put = (of: LabelledKind, { id, name }: Pick<Item, 'id' | 'name'>, copies: number) =>
    setChosen((before) => {
      const after = new Map(before);
      if (copies === 0) after.delete(id);
      else after.set(id, { kind: of, id, name, copies });
      return after;
    });
  useScan((scanned) => {
    const { id, name } =
      scanned.kind === 'part'
        ? { id: scanned.part.id, name: scanned.part.number }
        : {
            id: scanned.id,
            name: calledOf(scanned),
          };
    if (chosen.has(id)) return { did: words.chosenBefore };
    put(scanned.kind, { id, name }, 1);
    return { did: words.chosenNow, undo: () => put(scanned.kind, { id, name }, 0) };
  });
  const labels: readonly LabelAsked[] = [...chosen.values()].map(({ kind: of, id, copies }) => ({
    kind: of,
    id,
    copies,
  }));
  const kinds = [...labelledKinds.toReversed(), ...(setUp ? (['badge'] as const) : [])];
  return (
    <main className="labels">
      <title>{words.title}</title>
      <h1>{words.title}</h1>
      <div className="labels-columns">
        <div>
          <Choice
            label={words.of}
            value={kind}
            onChange={setKind}
            options={kinds.map((value) => ({ value, label: words.kinds[value] }))}
          />
          {kind === 'badge' ? (
            <BadgesSection />
          ) : (
            <Choosing key={kind} kind={kind} chosen={chosen} put={(item, copies) => put(kind, item, copies)} />
          )}
        </div>
        {kind === 'badge' ? null : (
          <section className="labels-print raised" aria-label={words.sheet}>
            <h2>{words.sheet}</h2>
            {labels.length === 0 ? <p className="note">{words.nothingChosen}</p> : null}
            <ul className="labels-chosen">
              {[...chosen.values()].map(({ id, name, copies, kind: of }) => (
                <li key={id}>
                  <span>
                    <b className="num">{name}</b> <span className="note">{words.kinds[of]}</span>
                  </span>
                  <Stepper
                    label={words.copies(name)}
                    value={copies}
                    max={50}
                    onChange={(many) => put(of, { id, name }, many)}
                  />
                </li>
              ))}
            </ul>
            {labels.length === 0 ? null : <PrintForm labels={labels} />}
          </section>
        )}
      </div>
    </main>
  );
}

interface ChoosingProps {
  readonly kind: LabelledKind;
  readonly chosen: Chosen;
  readonly put: (item: Item, copies: number) => void;
}

function Choosing({ kind, chosen, put }: ChoosingProps) {
  const words = useWords().labels;
  const [search, setSearch] = useState('');
  const wanted = useDeferredValue(search.trim());
  const found = useQuery({
    queryKey: ['labels', kind, wanted],
    queryFn: ({ signal }) => read<LabelChoices>(`/labels?kind=${kind}&search=${encodeURIComponent(wanted)}`, signal),
  });
  if (found.isError && found.data === undefined)
    return <Failed error={found.error} again={() => void found.refetch()} />;
  return (
    <>
      <SearchField label={words.find} most={60} value={search} onChange={setSearch} />
      {found.isPending ? <Skeleton label={words.reading} lines={6} /> : null}
      {found.data?.items.length === 0 ? <Empty title={words.none}>{words.noneWhy}</Empty> : null}
      <ul className="labels-found">
        {found.data?.items.map((item) => (
          <li key={item.id}>
            <label>
              <input
                type="checkbox"
                checked={chosen.has(item.id)}
                onChange={({ target }) => put(item, target.checked ? 1 : 0)}
              />
              <span>
                <b className="num">{item.name}</b>
                <span className="note">{item.about}</span>
              </span>
            </label>
          </li>
        ))}
      </ul>
      {found.data?.more === true ? (
        <p className="note" role="status">
          {words.moreFound(found.data.items.length)}
        </p>
      ) : null}
    </>
  );
}

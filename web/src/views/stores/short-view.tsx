import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { ShortLine } from '#contracts/stores-desks.ts';
import { Choice } from '../../kit/choice.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useScan } from '../../scan/registry.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { Desks } from './desks.tsx';
import { FirstOf } from './first-of.tsx';
import { NotYetRead } from './not-yet-read.tsx';
import { OrderDialog, type OrderFor } from './order-dialog.tsx';
import { ShortRow } from './short-row.tsx';
import { useShownFirst } from './shown-first.ts';
import { FileLink } from './store-files.tsx';
import { shortQuery } from './stores-queries.ts';
import './stores.css';
import './desks.css';
import './short.css';

type By = 'job' | 'part';
type Which = 'all' | 'notOrdered' | 'late';

const belongs: Readonly<Record<Which, (line: ShortLine) => boolean>> = {
  all: () => true,
  notOrdered: ({ uncovered }) => uncovered > 0,
  late: ({ late }) => late,
};

/** What is short: by job or by part, whether it is ordered, when it comes, and what is late. */
export function ShortView() {
  const { short: words } = useWords().storesDesks;
  const lines = useQuery(shortQuery);
  return (
    <main className="stores one-sheet">
      <title>{words.title}</title>
      <div className="p short-desk">
        <Desks />
        <div className="hd">
          <h1>{words.title}</h1>
          <FileLink name="short" />
          <FileLink name="wanted" />
        </div>
        <NotYetRead query={lines} label={words.reading} lines={7} />
        {lines.data?.items.length === 0 ? <Empty title={words.nothing}>{words.nothingWhat}</Empty> : null}
        {lines.data === undefined || lines.data.items.length === 0 ? null : <ShortDesk lines={lines.data.items} />}
      </div>
    </main>
  );
}

/** Jobs or parts on the page at first. */
const groupsAtATime = 100;

function ShortDesk({ lines }: { readonly lines: readonly ShortLine[] }) {
  const { short: words } = useWords().storesDesks;
  const [by, setBy] = useState<By>('job');
  const [which, setWhich] = useState<Which>('all');
  const [marked, setMarked] = useState<string | null>(null);
  const [order, setOrder] = useState<OrderFor | null>(null);
  useScan((scanned) => {
    const mark = (id: string, has: boolean, shown: By) => {
      if (!has) return { did: words.scanned.none, amiss: true };
      setMarked(id);
      setBy(shown);
      setWhich('all');
      return { did: words.scanned.shown, undo: () => setMarked(null) };
    };
    if (scanned.kind === 'part')
      return mark(
        scanned.part.id,
        lines.some(({ part }) => part.id === scanned.part.id),
        'part',
      );
    if (scanned.kind === 'bin') return undefined;
    const jobId = scanned.kind === 'engine' ? scanned.jobId : scanned.job.id;
    return jobId === null
      ? undefined
      : mark(
          jobId,
          lines.some(({ job }) => job.id === jobId),
          'job',
        );
  });
  const count = (of: Which) => lines.filter(belongs[of]).length;
  const groups = groupsOf(lines.filter(belongs[which]), by);
  const { shown, more } = useShownFirst(
    groups,
    groupsAtATime,
    groups.findIndex(({ id }) => id === marked),
  );
  return (
    <>
      <div className="short-head">
        <Choice
          label={words.by}
          value={by}
          onChange={setBy}
          options={[
            { value: 'job', label: words.byJob },
            { value: 'part', label: words.byPart },
          ]}
        />
        <Choice
          label={words.which}
          value={which}
          onChange={setWhich}
          options={[
            { value: 'all', label: words.all(count('all')) },
            { value: 'notOrdered', label: words.notOrdered(count('notOrdered')) },
            { value: 'late', label: words.late(count('late')) },
          ]}
        />
      </div>
      {shown.length === 0 ? <p className="nothing">{words.noneOfThese}</p> : null}
      {shown.map(({ id, own }) => (
        <ShortGroup key={id} by={by} own={own} marked={marked === id} onOrder={setOrder} />
      ))}
      <FirstOf shown={shown.length} of={groups.length} onMore={more} />
      {order === null ? null : <OrderDialog order={order} onClose={() => setOrder(null)} />}
    </>
  );
}

function groupsOf(lines: readonly ShortLine[], by: By) {
  const groups = new Map<string, ShortLine[]>();
  for (const line of lines) {
    const { id } = by === 'job' ? line.job : line.part;
    const own = groups.get(id);
    if (own === undefined) groups.set(id, [line]);
    else own.push(line);
  }
  return [...groups].map(([id, own]) => ({ id, own }));
}

interface GroupProps {
  readonly by: By;
  readonly own: readonly ShortLine[];
  readonly marked: boolean;
  readonly onOrder: (order: OrderFor) => void;
}

function ShortGroup({ by, own, marked, onOrder }: GroupProps) {
  const { short: words } = useWords().storesDesks;
  const format = useFormat();
  const [first] = own;
  if (first === undefined) return null;
  const { job, part, jobDueOn } = first;
  return (
    <section className={marked ? 'short-group marked' : 'short-group'}>
      {by === 'job' ? (
        <h2>
          {words.jobHead(job.number, job.family, job.serial)}
          <span className="note">{jobDueOn === null ? words.noPromise : words.due(format.day(jobDueOn))}</span>
        </h2>
      ) : (
        <h2>
          {part.name} <span className="num note">{part.number}</span>
          <span className="note">{words.missing(own.reduce((sum, { short }) => sum + short, 0))}</span>
        </h2>
      )}
      <ul>
        {own.map((line) => (
          <ShortRow key={line.demandLineId} line={line} by={by} onOrder={onOrder} />
        ))}
      </ul>
    </section>
  );
}

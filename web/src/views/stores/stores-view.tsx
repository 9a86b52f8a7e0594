import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { DemandLine } from '#contracts/demands.ts';
import type { PurchaseLine } from '#contracts/stock.ts';
import { useHashPlace } from '../../app/hash-place.ts';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { AskDialog } from './ask-dialog.tsx';
import { Desks } from './desks.tsx';
import { isDone, JobInStores } from './job-in-stores.tsx';
import { OrderDialog, type OrderFor } from './order-dialog.tsx';
import { PartPanel } from './part-panel.tsx';
import { ReceiveDialog } from './receive-dialog.tsx';
import { type Scan, ScanField, ScanSaid } from './scan-field.tsx';
import { StoresAside } from './stores-aside.tsx';
import { boardQuery, floorQuery } from './stores-queries.ts';
import { useStoresScan } from './use-stores-scan.ts';
import './stores.css';
import './desks.css';

type Doing =
  | { readonly what: 'ask' }
  | { readonly what: 'order'; readonly order: OrderFor }
  | { readonly what: 'receive'; readonly line: PurchaseLine };

interface Looking {
  readonly search: string;
  readonly partId: string | null;
}

/** What stores have before them: what each job wants and how it stands, what is short, low, coming in. */
export function StoresView() {
  const { stores: words } = useWords();
  const board = useQuery(boardQuery);
  const floor = useQuery(floorQuery).data;
  const [doing, setDoing] = useState<Doing | null>(null);
  const [looking, setLooking] = useState<Looking | null>(null);
  const [scan, setScan] = useState<Scan | null>(null);
  const openPart = (partId: string) => setLooking({ search: looking?.search ?? '', partId });
  const heed = (next: Scan) => {
    setScan(next);
    if (next.found === null) setLooking({ search: next.text, partId: null });
    else if (next.found.kind === 'part') setLooking({ search: next.found.part.number, partId: next.found.part.id });
  };
  useStoresScan(board.data, heed);
  const orderFor = (line: DemandLine) => {
    const { buyAs: part, short: quantity, jobId, lotRule } = line;
    setDoing({ what: 'order', order: { part, quantity, jobId, words: lotRule?.words ?? '' } });
  };
  // Whoever has everything comes last: nothing is to be done for them.
  const jobs = (board.data?.jobs ?? []).toSorted(
    (a, b) => Number(a.lines.every(isDone)) - Number(b.lines.every(isDone)),
  );
  useHashPlace(board.isSuccess);
  if (board.isError && board.data === undefined) {
    return (
      <main className="stores">
        <div className="p">
          <Failed error={board.error} again={() => void board.refetch()} />
        </div>
      </main>
    );
  }
  return (
    <main className="stores">
      <div className="p">
        <Desks />
        <StoresHead
          onScan={heed}
          onFind={looking === null ? () => setLooking({ search: '', partId: null }) : undefined}
          onDo={setDoing}
        />
        {scan === null || board.data === undefined ? null : (
          <ScanSaid scan={scan} board={board.data} onPart={openPart} onClose={() => setScan(null)} />
        )}
        {looking === null ? null : (
          <PartPanel
            search={looking.search}
            partId={looking.partId}
            onSearch={(search) => setLooking({ search, partId: null })}
            onPart={(partId) => setLooking({ search: looking.search, partId })}
            onClose={() => {
              setLooking(null);
              setScan(null);
            }}
          />
        )}
        {board.isPending ? <Skeleton label={words.reading} lines={9} /> : null}
        {board.data?.jobs.length === 0 ? <Empty title={words.empty}>{words.emptyWhat}</Empty> : null}
        <div className="jobs">
          {jobs.map((job) => (
            <JobInStores
              key={job.job.id}
              of={job}
              standing={floor?.engines.find(({ id }) => id === job.job.engineId)}
              markedBin={scan?.found?.kind === 'bin' ? scan.found.code : null}
              onOrder={orderFor}
              onPart={openPart}
            />
          ))}
        </div>
      </div>
      {board.data === undefined ? (
        <aside className="sunken" />
      ) : (
        <StoresAside board={board.data} onReceive={(line) => setDoing({ what: 'receive', line })} onPart={openPart} />
      )}
      {doing === null ? null : <StoresDialog doing={doing} onClose={() => setDoing(null)} />}
    </main>
  );
}

interface HeadProps {
  readonly onScan: (scan: Scan) => void;
  /** Opens the parts; undefined while they are open. */
  readonly onFind: (() => void) | undefined;
  readonly onDo: (doing: Doing) => void;
}

function StoresHead({ onScan, onFind, onDo }: HeadProps) {
  const { stores: words, labels } = useWords();
  const [stores, asks] = [useMay('stores'), useMay('ask for parts')];
  const anOrder = { part: null, quantity: 1, jobId: '', words: '' };
  return (
    <div className="hd">
      <h1>{words.title}</h1>
      <ScanField onScan={onScan} />
      <div className="kit-acts">
        <Link className="btn" to="/labels">
          {labels.title}
        </Link>
        {onFind === undefined ? null : <Button onClick={onFind}>{words.part.search}</Button>}
        {asks ? <Button onClick={() => onDo({ what: 'ask' })}>{words.askForParts}</Button> : null}
        {stores ? <Button onClick={() => onDo({ what: 'order', order: anOrder })}>{words.order}</Button> : null}
      </div>
    </div>
  );
}

function StoresDialog({ doing, onClose }: { readonly doing: Doing; readonly onClose: () => void }) {
  switch (doing.what) {
    case 'ask':
      return <AskDialog onClose={onClose} />;
    case 'order':
      return <OrderDialog order={doing.order} onClose={onClose} />;
    case 'receive':
      return <ReceiveDialog part={doing.line.part} purchase={doing.line} onClose={onClose} />;
  }
}

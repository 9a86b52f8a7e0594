import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { CountSheet, HandedIn } from '#contracts/counts.ts';
import { useMay, useSession } from '../../../app/session.tsx';
import { Failed } from '../../../app/view-states.tsx';
import { Button } from '../../../kit/button.tsx';
import { Skeleton } from '../../../kit/skeleton.tsx';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { Desks } from '../desks.tsx';
import { BringButton } from '../store-files.tsx';
import { CountBench } from './count-bench.tsx';
import { countSheetQuery } from './count-queries.ts';
import { GiveUpDialog } from './give-up-dialog.tsx';
import { Handed } from './handed.tsx';
import { LineList } from './line-list.tsx';
import { PaperSheet } from './paper-sheet.tsx';
import { RecountPanel } from './recount-panel.tsx';
import '../stores.css';
import '../desks.css';
import './count.css';

/** One count sheet: counted blind line by line, then told. */
export function CountSheetView() {
  const { sheetId } = useParams({ from: '/framed/stores/count/$sheetId' });
  const words = useWords().counts;
  const query = useQuery(countSheetQuery(sheetId));
  return (
    <main className="stores one-sheet count-view">
      <div className="p">
        <Desks />
        {query.isPending ? <Skeleton label={words.reading} lines={8} /> : null}
        {query.isError && query.data === undefined ? (
          <Failed error={query.error} again={() => void query.refetch()} />
        ) : null}
        {query.data === undefined ? null : <Sheet key={query.data.round.number} sheet={query.data} />}
      </div>
    </main>
  );
}

function Sheet({ sheet }: { readonly sheet: CountSheet }) {
  const words = useWords().counts;
  const me = useSession().person.id;
  const mayCount = useMay('stores');
  const [handed, setHanded] = useState<HandedIn | null>(null);
  const mine = sheet.state === 'counting' && sheet.round.counter.id === me && mayCount;
  const foreign = sheet.state === 'counting' && !mine;
  return (
    <>
      <SheetHead sheet={sheet} mine={mine} />
      {handed === null ? null : <Handed handed={handed} />}
      {foreign ? <p className="count-note">{words.sheet.foreign(sheet.round.counter.name)}</p> : null}
      {mine ? <CountBench sheet={sheet} onHandedIn={setHanded} /> : null}
      {sheet.state === 'to recount' && mayCount ? <RecountPanel sheet={sheet} /> : null}
      {mine ? null : <LineList sheet={sheet} />}
      <PaperSheet sheet={sheet} />
    </>
  );
}

function SheetHead({ sheet, mine }: { readonly sheet: CountSheet; readonly mine: boolean }) {
  const { sheet: words, sheets } = useWords().counts;
  const { storeFiles } = useWords();
  const format = useFormat();
  const [givingUp, setGivingUp] = useState(false);
  const may = useMay('stores');
  const { round, state } = sheet;
  const ended = state === 'done' || state === 'given up';
  const who =
    state === 'counting'
      ? round.number === 1
        ? words.by(round.counter.name, format.since(round.begunAt))
        : words.recountBy(round.counter.name, round.number)
      : words.countedBy(round.counter.name);
  return (
    <div className="hd no-print">
      <div className="count-title">
        <Link to="/stores/count">{words.back}</Link>
        <h1>{words.title(sheet.number)}</h1>
        <p>
          <b>{sheets.state[state]}.</b> {who}
          {sheet.givenUp === null ? '' : `. ${sheet.givenUp.by}: ${sheet.givenUp.reason}`}
        </p>
      </div>
      <div className="kit-acts">
        {ended ? null : <Button onClick={() => print()}>{words.print}</Button>}
        {ended ? null : (
          <a
            className="btn"
            href={`/api/count-sheets/${sheet.id}/sheet.csv`}
            download={`count-sheet-${sheet.number}.csv`}
          >
            {storeFiles.out.sheet}
          </a>
        )}
        {mine ? <BringButton what="counts" at={`/count-sheets/${sheet.id}`} /> : null}
        {ended || !may ? null : <Button onClick={() => setGivingUp(true)}>{words.giveUp}</Button>}
      </div>
      {givingUp ? <GiveUpDialog sheetId={sheet.id} onClose={() => setGivingUp(false)} /> : null}
    </div>
  );
}

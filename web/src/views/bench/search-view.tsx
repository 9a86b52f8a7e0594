import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { Opening } from '#contracts/openings.ts';
import type { Search } from '#contracts/searches.ts';
import { ReasonForm } from '../../app/reason-form.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { HandsPage } from './hands-page.tsx';
import { openingQuery } from './hands-queries.ts';
import { searchesQuery } from './tally-queries.ts';
import './tally.css';

type Step = Search['steps'][number];

function SearchStep({ search, step }: { readonly search: Search; readonly step: Step }) {
  const { search: words } = useWords().tally;
  const format = useFormat();
  const may = useMay('bench');
  const writing = useWrite();
  const [said, setSaid] = useState('');
  const go = () =>
    writing.write({
      path: `/searches/${search.id}/ticks`,
      body: { step: step.code, ...(said.trim() === '' ? {} : { words: said.trim() }) },
    });
  return (
    <li className={step.ticked === null ? 'search-step' : 'search-step done'}>
      <i aria-hidden="true" />
      <div>
        <h3>
          {step.title} {step.lastResort ? <span className="note">({words.lastResort})</span> : null}
        </h3>
        <p>{step.words}</p>
        {step.caution === '' ? null : <p className="caution">{step.caution}</p>}
        {step.ticked === null ? null : (
          <p className="note">
            <b>{words.tick}</b>: {words.ticked(step.ticked.by.name, format.since(step.ticked.at))}
            {step.ticked.words === '' ? '' : `. ${step.ticked.words}`}
          </p>
        )}
      </div>
      {step.ticked !== null || search.ended !== null ? null : (
        <div className="search-tick">
          <Field label={words.said}>
            {(input) => (
              <input {...input} maxLength={300} value={said} onChange={({ target }) => setSaid(target.value)} />
            )}
          </Field>
          <Button big disabled={!may || writing.busy} onClick={go} aria-label={`${words.tick}: ${step.title}`}>
            {words.tick}
          </Button>
          <Refusal error={writing.error} />
        </div>
      )}
    </li>
  );
}

/** The piece line or put-in thing a search is about, by what is still declared inside. */
function foundWrite(search: Search, opening: Opening) {
  const thing = opening.putIn.find(({ name, where }) => `${name}, ${where}` === search.what);
  if (thing !== undefined) return { path: `/put-in/${thing.id}/found`, body: { count: thing.notFound } };
  const line = opening.pieces.find(
    ({ name, fromWhere, inside }) =>
      (inside ?? 0) > 0 && search.what === (fromWhere === '' ? name : `${name}, ${fromWhere}`),
  );
  const trayId = line?.lying[0]?.tray?.id;
  return {
    path: `/openings/${opening.id}/pieces/found`,
    body: {
      pieces: [{ pieceId: line?.id ?? '', count: search.missing ?? 1 }],
      ...(trayId === undefined ? {} : { trayId }),
    },
  };
}

function Ending({ search }: { readonly search: Search }) {
  const { search: words } = useWords().tally;
  const lead = useMay('lead');
  const may = useMay('bench');
  const [how, setHow] = useState<'found' | 'decide' | null>(null);
  const { data: opening } = useQuery(openingQuery({ id: search.openingId, jobId: search.jobId }));
  const done = () => setHow(null);
  const form = {
    ...{ big: true, formClass: 'hands-form', actsClass: 'hands-acts', cancel: words.cancel },
    ...{ onCancel: done, onDone: done },
  };
  if (how === 'found' && opening !== undefined) {
    const { path, body } = foundWrite(search, opening);
    return (
      <ReasonForm
        {...form}
        label={words.foundWhere}
        go={words.sayFound}
        path={path}
        bodyOf={(reason) => ({ ...body, reason })}
      />
    );
  }
  if (how === 'decide') {
    return (
      <ReasonForm
        {...form}
        lead={<p className="caution">{words.decideWhy}</p>}
        label={words.decideReason}
        go={words.sayDecide}
        path={`/searches/${search.id}/decision`}
        bodyOf={(reason) => ({ reason })}
      />
    );
  }
  return (
    <div className="hands-acts">
      <Button big kind="main" disabled={!may || opening === undefined} onClick={() => setHow('found')}>
        {words.found}
      </Button>
      {lead ? (
        <Button big onClick={() => setHow('decide')}>
          {words.decide}
        </Button>
      ) : null}
    </div>
  );
}

function OneSearch({ search }: { readonly search: Search }) {
  const { search: words } = useWords().tally;
  const format = useFormat();
  const { ended } = search;
  return (
    <section className="search" aria-label={search.what}>
      <h2>{search.missing === null || ended !== null ? search.what : words.missing(search.missing, search.what)}</h2>
      <p className="note">{words.since(search.openedBy.name, format.since(search.openedAt))}</p>
      {ended === null ? (
        <Ending search={search} />
      ) : (
        <p>
          <b>{words.ended(ended.outcome, ended.by.name, format.since(ended.at))}</b> {ended.reason}
        </p>
      )}
      <h3 className="note">{words.steps}</h3>
      <ol className="search-steps">
        {search.steps.map((step) => (
          <SearchStep key={step.code} search={search} step={step} />
        ))}
      </ol>
    </section>
  );
}

function SearchesOf({ jobId }: { readonly jobId: string }) {
  const { tally } = useWords();
  const { data, error, refetch } = useQuery(searchesQuery(jobId));
  if (data === undefined) {
    return error === null ? (
      <Skeleton label={tally.reading} lines={8} />
    ) : (
      <NotRead error={error} again={() => void refetch()} right="look" />
    );
  }
  const open = data.items.filter(({ ended }) => ended === null);
  const shown = [...open, ...data.items.filter(({ ended }) => ended !== null).toReversed()];
  return (
    <main className="check">
      {open.length === 0 ? null : (
        <div className="locked" role="alert">
          <h1>{tally.search.locked}</h1>
          <p>{tally.search.lockedWhy}</p>
        </div>
      )}
      {shown.length === 0 ? <Empty title={tally.search.none}>{''}</Empty> : null}
      {shown.map((search) => (
        <OneSearch key={search.id} search={search} />
      ))}
      <p className="note">{tally.search.manual}</p>
    </main>
  );
}

/** The search for what may be inside one engine, step by step, until it is found or a lead decides by name. */
export function SearchView() {
  const { jobId } = useParams({ from: '/bench/$jobId/search' });
  const { tally } = useWords();
  return (
    <HandsPage jobId={jobId} title={tally.search.title} doing={tally.search.doing}>
      {() => <SearchesOf jobId={jobId} />}
    </HandsPage>
  );
}

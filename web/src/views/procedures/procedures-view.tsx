import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { DraftMade, ProcedureShelf } from '#contracts/procedure-documents.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { ImportProcedureDialog } from './import-procedure-dialog.tsx';
import { NewProcedureDialog } from './new-procedure-dialog.tsx';
import { shelfQuery } from './procedures-queries.ts';
import './procedures.css';

type OnShelf = ProcedureShelf['items'][number];

/** Every procedure of every family with its versions; the lead drafts, imports and publishes. */
export function ProceduresView() {
  const { procedures: words } = useWords();
  const shelf = useQuery(shelfQuery);
  const lead = useMay('set up');
  const [doing, setDoing] = useState<'new' | 'import' | null>(null);
  const items = shelf.data?.items ?? [];
  const families = [...new Map(items.map(({ family }) => [family.id, family.name]))];
  const close = () => setDoing(null);
  return (
    <main className="procedures">
      <header className="hd">
        <h1>{words.title}</h1>
        {lead ? (
          <div className="acts">
            <Button onClick={() => setDoing('new')}>{words.begin.open}</Button>
            <Button onClick={() => setDoing('import')}>{words.import.open}</Button>
          </div>
        ) : null}
      </header>
      <p className="note">{words.what}</p>
      {shelf.isPending ? <Skeleton label={words.reading} lines={9} /> : null}
      {shelf.isError && shelf.data === undefined ? (
        <Failed error={shelf.error} again={() => void shelf.refetch()} />
      ) : null}
      {shelf.data !== undefined && items.length === 0 ? <Empty title={words.none}>{words.noneWhat}</Empty> : null}
      {families.map(([id, name]) => (
        <section key={id} className="family">
          <h2>{name}</h2>
          <ul className="shelf">
            {items
              .filter(({ family }) => family.id === id)
              .map((procedure) => (
                <OneProcedure key={procedure.id} procedure={procedure} lead={lead} />
              ))}
          </ul>
        </section>
      ))}
      {doing === 'new' ? <NewProcedureDialog onClose={close} /> : null}
      {doing === 'import' ? <ImportProcedureDialog onClose={close} /> : null}
    </main>
  );
}

function OneProcedure({ procedure, lead }: { readonly procedure: OnShelf; readonly lead: boolean }) {
  const { procedures: words } = useWords();
  const format = useFormat();
  const navigate = useNavigate();
  const writing = useWrite<DraftMade>();
  const draft = () =>
    writing.write(
      { path: `/procedures/${procedure.id}/drafts` },
      ({ id }) => void navigate({ to: '/procedures/$versionId', params: { versionId: id } }),
    );
  const drafted = procedure.versions.some(({ publishedAt }) => publishedAt === null);
  return (
    <li>
      <div className="shelf-head">
        <b>{procedure.name}</b>
        <span className="note num">
          {procedure.code} · {words.kinds[procedure.kind]}
        </span>
        {lead && !drafted ? (
          <Button disabled={writing.busy} aria-label={words.draftOf(procedure.name)} onClick={draft}>
            {words.draftNext}
          </Button>
        ) : null}
      </div>
      <Refusal error={writing.error} />
      <ul className="shelf-versions">
        {procedure.versions.map((version) => (
          <li key={version.id} className={version.publishedAt === null ? 'is-draft' : undefined}>
            <Link to="/procedures/$versionId" params={{ versionId: version.id }}>
              {words.version(version.number)}
            </Link>
            <b>{version.publishedAt === null ? words.draft : words.published}</b>
            <span className="num">{words.steps(version.steps)}</span>
            <span className="note">
              {version.by?.name ?? '–'}, {format.date(version.publishedAt ?? version.draftedAt)}
            </span>
            <span className="note">{words.runs(version.runs, version.openRuns)}</span>
          </li>
        ))}
      </ul>
    </li>
  );
}

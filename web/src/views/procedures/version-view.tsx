import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { buttonClass } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { DraftEditor } from './draft-editor.tsx';
import { procedureQuery, shelfQuery } from './procedures-queries.ts';
import { StepsInFull } from './steps-in-full.tsx';
import { Changes, VersionFaults } from './version-facts.tsx';
import './procedures.css';

/** One version: read in full, or, while it is a draft, written by the lead. */
export function VersionView() {
  const { versionId } = useParams({ from: '/framed/procedures/$versionId' });
  const { procedures: words } = useWords();
  const format = useFormat();
  const lead = useMay('set up');
  const document = useQuery(procedureQuery(versionId));
  const shelf = useQuery(shelfQuery);
  const onShelf = shelf.data?.items.find(({ versions }) => versions.some(({ id }) => id === versionId));
  const version = onShelf?.versions.find(({ id }) => id === versionId);
  const failed = [document, shelf].find(({ isError, data }) => isError && data === undefined);
  if (failed !== undefined) {
    return (
      <main className="procedures">
        <Failed error={failed.error} again={() => void failed.refetch()} />
      </main>
    );
  }
  if (document.data === undefined || onShelf === undefined || version === undefined) {
    return (
      <main className="procedures">
        <Skeleton label={words.reading} lines={12} />
      </main>
    );
  }
  const { body, etag } = document.data;
  const before = onShelf.versions.find(({ id, publishedAt }) => id !== versionId && publishedAt !== null);
  const draft = version.publishedAt === null;
  return (
    <main className="procedures">
      <header className="hd">
        <h1>{body.name}</h1>
        <div className="acts">
          <Link className={buttonClass()} to="/procedures">
            {words.all}
          </Link>
          <Link className={buttonClass()} to="/procedure-sheets/$versionId" params={{ versionId }}>
            {words.print}
          </Link>
          <a className={buttonClass()} href={`/api/procedure-versions/${versionId}/procedure.json`} download>
            {words.export}
          </a>
        </div>
      </header>
      <TitleBlock
        facts={[
          { name: words.facts.code, value: body.code },
          { name: words.facts.version, value: words.version(version.number) },
          {
            name: words.facts.state,
            value: draft ? words.draft : words.publishedOn(format.date(version.publishedAt ?? version.draftedAt)),
          },
          { name: words.facts.by, value: version.by?.name ?? '–' },
          { name: words.facts.steps, value: String(body.steps.length) },
          { name: words.facts.runs, value: words.runs(version.runs, version.openRuns) },
        ]}
        columns={6}
      />
      {draft && lead ? (
        <DraftEditor key={etag} versionId={versionId} document={body} etag={etag} before={before?.id ?? null} />
      ) : (
        <>
          {draft ? <VersionFaults versionId={versionId} /> : null}
          {before === undefined ? null : <Changes after={body} before={before.id} />}
          <StepsInFull document={body} versionId={versionId} />
        </>
      )}
    </main>
  );
}

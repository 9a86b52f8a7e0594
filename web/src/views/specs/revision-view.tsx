import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { Revision, SpecSheetDocument } from '#contracts/spec-sheets.ts';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { TitleBlock } from '../../kit/title-block.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { familiesQuery } from '../counter/counter-queries.ts';
import { Compare } from './changes-table.tsx';
import { DraftActs } from './draft-acts.tsx';
import { SheetAssembly } from './sheet-assembly.tsx';
import { SheetDimensions } from './sheet-dimensions.tsx';
import { SheetPlaces } from './sheet-places.tsx';
import { documentQuery, jobsQuery, revisionsQuery } from './specs-queries.ts';
import type { Draft } from './use-draft.ts';
import './specs.css';

/** One revision of a spec sheet in full; a draft can be changed by a lead. */
export function RevisionView() {
  const { specs: words } = useWords();
  const { revisionId = '' } = useParams({ strict: false });
  const read = useQuery(documentQuery(revisionId));
  const families = useQuery(familiesQuery).data?.items ?? [];
  const family = families.find(({ code }) => code === read.data?.body.family.code);
  const revisions = useQuery({ ...revisionsQuery(family?.id ?? ''), enabled: family !== undefined });
  const revision = revisions.data?.items.find(({ id }) => id === revisionId);
  const failed = [read, revisions].find(({ isError, data }) => isError && data === undefined);
  return (
    <main className="specs one-sheet">
      <p className="no-print">
        <Link to="/specs">{words.back}</Link>
      </p>
      {failed !== undefined ? (
        <Failed
          error={failed.error}
          again={() => {
            void read.refetch();
            void revisions.refetch();
          }}
        />
      ) : read.data === undefined || revision === undefined ? (
        <Skeleton label={words.reading} lines={14} />
      ) : (
        <Sheet
          draft={{ revisionId, number: revision.number, document: read.data.body, etag: read.data.etag }}
          revision={revision}
          revisions={revisions.data?.items ?? []}
        />
      )}
    </main>
  );
}

interface SheetProps {
  readonly draft: Draft;
  readonly revision: Revision;
  readonly revisions: readonly Revision[];
}

function Sheet({ draft, revision, revisions }: SheetProps) {
  const { specs: words } = useWords();
  const { document } = draft;
  const editing = useMay('set up') && revision.publishedAt === null ? draft : undefined;
  return (
    <>
      <SheetHead document={document} revision={revision} />
      {revision.publishedAt === null ? <p className="hot">{words.draftIs}</p> : null}
      {editing === undefined ? null : <DraftActs draft={editing} revisions={revisions} />}
      <JobsOn revision={revision} />
      <Compare of={revision} others={revisions.filter(({ id }) => id !== revision.id)} />
      <SheetDimensions document={document} editing={editing} />
      <SheetPlaces document={document} editing={editing} />
      <SheetAssembly document={document} editing={editing} />
    </>
  );
}

function SheetHead({ document, revision }: { readonly document: SpecSheetDocument; readonly revision: Revision }) {
  const { specs: words } = useWords();
  const format = useFormat();
  const { publishedAt, publishedBy, draftedBy, draftedAt } = revision;
  const state = publishedAt === null ? words.draft : words.published;
  const by = (publishedBy ?? draftedBy)?.name;
  const address = `/api/spec-revisions/${revision.id}/sheet`;
  return (
    <>
      <header className="hd">
        <h1>
          {document.family.name} <span className="num">{words.revision(revision.number)}</span>
        </h1>
        <div className="acts no-print">
          <a className="btn" href={`${address}.csv`} download>
            {words.asCsv}
          </a>
          <a className="btn" href={`${address}.json`} download>
            {words.asDocument}
          </a>
        </div>
      </header>
      <TitleBlock
        facts={[
          { name: words.of, value: `${document.family.name} (${document.family.code})` },
          {
            name: words.state,
            value: [state, format.date(publishedAt ?? draftedAt), ...(by === undefined ? [] : [by])].join(', '),
          },
          { name: words.columns.dimensions, value: document.dimensions.length },
          {
            name: words.note,
            value:
              [document.note, ...(document.figuresInvented ? [words.invented] : [])].filter(Boolean).join('; ') || '–',
          },
        ]}
      />
    </>
  );
}

function JobsOn({ revision }: { readonly revision: Revision }) {
  const { specs: words } = useWords();
  const jobs = useQuery({ ...jobsQuery(revision.id), enabled: revision.publishedAt !== null });
  if (revision.publishedAt === null) return null;
  const items = jobs.data?.items ?? [];
  const inShop = items.filter(({ handedBackAt }) => handedBackAt === null);
  return (
    <section className="no-print jobs-on">
      <h2>{words.usedBy}</h2>
      {revision.jobs === 0 ? (
        <p className="note">{words.usedByNobody}</p>
      ) : (
        <p>
          {words.jobs(revision.openJobs, revision.jobs)}. {words.usedByWhat}{' '}
          {inShop.map(({ id, engineId, serial, number }) => (
            <Link key={id} to="/engines/$engineId" params={{ engineId }} className="num job-link">
              {number}, {serial}
            </Link>
          ))}
        </p>
      )}
    </section>
  );
}

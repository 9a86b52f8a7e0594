import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { Drafted, Revision } from '#contracts/spec-sheets.ts';
import type { Families } from '#contracts/specs.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { quantityText } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { familiesQuery } from '../counter/counter-queries.ts';
import { FamilyDialog } from './family-dialog.tsx';
import { revisionsQuery } from './specs-queries.ts';
import './specs.css';

/** Every engine family with the revisions of its spec sheet. */
export function SpecsView() {
  const { specs: words, procedures } = useWords();
  const families = useQuery(familiesQuery);
  const lead = useMay('set up');
  const [adding, setAdding] = useState(false);
  return (
    <main className="specs">
      <header className="hd">
        <h1>{words.title}</h1>
        <div className="acts">
          <Link to="/procedures" className={buttonClass()}>
            {procedures.title}
          </Link>
          {lead ? <Button onClick={() => setAdding(true)}>{words.newFamily.open}</Button> : null}
        </div>
      </header>
      <p className="note">{words.what}</p>
      {families.isPending ? <Skeleton label={words.reading} lines={9} /> : null}
      {families.isError && families.data === undefined ? (
        <Failed error={families.error} again={() => void families.refetch()} />
      ) : null}
      {families.data?.items.length === 0 ? <Empty title={words.none}>{words.noneWhat}</Empty> : null}
      {families.data?.items.map((family) => (
        <FamilySheets key={family.id} family={family} lead={lead} />
      ))}
      {adding ? <FamilyDialog onClose={() => setAdding(false)} /> : null}
    </main>
  );
}

function FamilySheets({ family, lead }: { readonly family: Families['items'][number]; readonly lead: boolean }) {
  const { specs: words } = useWords();
  const revisions = useQuery(revisionsQuery(family.id));
  const items = revisions.data?.items ?? [];
  return (
    <section className="family">
      <header>
        <h2>{family.name}</h2>
        <span className="note num">
          {family.code} · {words.size(quantityText(family.bore), quantityText(family.stroke))}
        </span>
        {lead && revisions.data !== undefined && items.every(({ publishedAt }) => publishedAt !== null) ? (
          <DraftNext familyId={family.id} newest={items[0]} />
        ) : null}
      </header>
      {revisions.isPending ? <Skeleton label={words.reading} lines={2} /> : null}
      {revisions.isError && revisions.data === undefined ? (
        <Failed error={revisions.error} again={() => void revisions.refetch()} />
      ) : null}
      {revisions.data !== undefined && items.length === 0 ? <p className="note">{words.noRevision}</p> : null}
      {items.length === 0 ? null : <RevisionList items={items} inForce={family.revision?.id} name={family.name} />}
    </section>
  );
}

function DraftNext({ familyId, newest }: { readonly familyId: string; readonly newest: Revision | undefined }) {
  const { specs: words } = useWords();
  const navigate = useNavigate();
  const writing = useWrite<Drafted>();
  const draft = () =>
    writing.write(
      { path: `/families/${familyId}/spec-revisions`, body: newest === undefined ? {} : { copyOf: newest.id } },
      ({ id }) => void navigate({ to: '/specs/$revisionId', params: { revisionId: id } }),
    );
  return (
    <div>
      <Button disabled={writing.busy} onClick={draft}>
        {words.draftNext}
      </Button>
      <Refusal error={writing.error} />
    </div>
  );
}

interface ListProps {
  readonly items: readonly Revision[];
  readonly inForce: string | undefined;
  readonly name: string;
}

function RevisionList({ items, inForce, name }: ListProps) {
  const { specs: words } = useWords();
  const format = useFormat();
  const { columns } = words;
  const stateOf = ({ id, publishedAt }: Revision) =>
    publishedAt === null ? words.draft : id === inForce ? words.inForce : words.published;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the table scrolls, so a keyboard has to reach it
    <section className="scroll-x" aria-label={name} tabIndex={0}>
      <table className="revisions">
        <thead>
          <tr>
            {[columns.revision, columns.state, columns.by, columns.dimensions, columns.jobs, columns.note].map(
              (one) => (
                <th key={one} scope="col">
                  {one}
                </th>
              ),
            )}
          </tr>
        </thead>
        <tbody>
          {items.map((revision) => (
            <tr key={revision.id} className={revision.publishedAt === null ? 'is-draft' : undefined}>
              <td>
                <Link to="/specs/$revisionId" params={{ revisionId: revision.id }}>
                  <b>{words.revision(revision.number)}</b>
                </Link>
              </td>
              <td>
                <b>{stateOf(revision)}</b>
                {revision.figuresInvented ? <span className="note line">{words.invented}</span> : null}
              </td>
              <td>
                {(revision.publishedBy ?? revision.draftedBy)?.name ?? '–'}
                <span className="note num line">{format.date(revision.publishedAt ?? revision.draftedAt)}</span>
              </td>
              <td className="num">{revision.dimensions}</td>
              <td>{words.jobs(revision.openJobs, revision.jobs)}</td>
              <td>{revision.note}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

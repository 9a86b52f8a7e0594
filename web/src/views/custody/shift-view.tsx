import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { ShiftEnd } from '#contracts/custody-past.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { faultAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { AbsentSection } from './absent-section.tsx';
import { shiftEndQuery, shiftReportsQuery } from './custody-queries.ts';
import { EverythingHeld, SnapshotSections } from './snapshot-sections.tsx';
import './custody.css';

/** A lead signs what stands on the screen; what moved meanwhile has to be read first. */
function Signing({ shift }: { readonly shift: ShiftEnd }) {
  const words = useWords().custody.shift;
  const lead = useMay('lead');
  const navigate = useNavigate();
  const [note, setNote] = useState('');
  const writing = useWrite<{ id: string }>();
  if (!lead) return <p className="note">{words.onlyLead}</p>;
  const ready = !writing.busy && (shift.clear || note.trim() !== '');
  return (
    <form
      className="signing no-print"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        const body = { mark: shift.mark, note: note.trim() };
        writing.write({ path: '/custody/shift-reports', body }, ({ id }) =>
          navigate({ to: '/shift-reports/$reportId', params: { reportId: id } }),
        );
      }}
    >
      <Field label={words.note} hint={words.noteHint} error={faultAt(writing.error, '/note')} big>
        {(input) => (
          <textarea
            {...input}
            rows={2}
            maxLength={1000}
            value={note}
            onChange={({ target }) => setNote(target.value)}
          />
        )}
      </Field>
      <Refusal error={writing.error} />
      <Button type="submit" big kind="main" disabled={!ready}>
        {words.sign}
      </Button>
    </form>
  );
}

function Earlier() {
  const words = useWords().custody.shift;
  const format = useFormat();
  const reports = useQuery(shiftReportsQuery).data?.items;
  if (reports === undefined) return null;
  return (
    <section aria-label={words.earlier} className="no-print">
      <h2>{words.earlier}</h2>
      {reports.length === 0 ? <p>{words.lastNone}</p> : null}
      <ul>
        {reports.map(({ id, signedBy, signedAt, note }) => (
          <li key={id}>
            <Link to="/shift-reports/$reportId" params={{ reportId: id }}>
              {words.signedBy(signedBy.name, format.dateTime(signedAt))}
            </Link>{' '}
            <span className="note">{note}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** The end of a shift: what stays with whom, what is unheld, unanswered, uncovered; a lead signs it off. */
export function ShiftView() {
  const { shift: words } = useWords().custody;
  const format = useFormat();
  const { data: shift, error, refetch } = useQuery(shiftEndQuery);
  return (
    <main className="custody shift">
      <title>{words.title}</title>
      <header className="custody-head">
        <h1>{words.title}</h1>
        {shift === undefined ? null : <p className="note num">{words.asOf(format.dateTime(shift.asOf))}</p>}
        <Link className="btn no-print" to="/custody">
          {words.toPast}
        </Link>
        <Button onClick={() => window.print()}>{words.print}</Button>
      </header>
      {shift === undefined ? (
        error === null ? (
          <Skeleton label={words.reading} lines={9} />
        ) : (
          <NotRead error={error} again={() => void refetch()} right="look" />
        )
      ) : (
        <>
          <p className={shift.clear ? 'outcome' : 'outcome differs'} role="status">
            {shift.clear ? words.clear : words.notClear}
          </p>
          <SnapshotSections snapshot={shift.snapshot} />
          <AbsentSection />
          <EverythingHeld items={shift.snapshot.items} />
          <Signing shift={shift} />
          <Earlier />
        </>
      )}
    </main>
  );
}

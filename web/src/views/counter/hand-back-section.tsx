import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { HandBackPage, ReasonAgainst } from '#contracts/hand-back.ts';
import type { Job } from '#contracts/intake.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { WordsField } from '../../kit/words-field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { handBackQuery } from './counter-queries.ts';
import { Proofs } from './proofs.tsx';

/** Everything against handing the engine back, each with the way to where it is settled; then the act itself. */
export function HandBackSection({ job }: { readonly job: Job }) {
  const { handBack: words, readingJob } = useWords().counter;
  const format = useFormat();
  const page = useQuery(handBackQuery(job.id));
  return (
    <section className="panel" id="hand-back">
      <h2>{words.title}</h2>
      {page.isPending ? <Skeleton label={readingJob} lines={3} /> : null}
      {page.isError ? <Failed error={page.error} again={() => void page.refetch()} /> : null}
      {page.data === undefined ? null : (
        <>
          {job.handedBackAt === null ? (
            <Against reasons={page.data.reasons} job={job} />
          ) : (
            <p role="status">
              <b>{words.doneAt(format.dateTime(job.handedBackAt))}</b>
            </p>
          )}
          <Proofs jobId={job.id} proofs={page.data.proofs} open={job.handedBackAt === null} />
          {job.handedBackAt === null ? <HandBackForm job={job} page={page.data} /> : null}
          <InBoxes job={job} page={page.data} />
        </>
      )}
    </section>
  );
}

function Against({ reasons, job }: { readonly reasons: HandBackPage['reasons']; readonly job: Job }) {
  const { handBack: words } = useWords().counter;
  if (reasons.length === 0) return <p role="status">{words.nothing}</p>;
  return (
    <div>
      <h3>{words.against}</h3>
      <ul className="reasons">
        {reasons.map((reason) => (
          <li key={`${reason.kind} ${reason.subject} ${reason.words}`}>
            <span>{reason.words}</span>
            <Settle reason={reason} job={job} />
          </li>
        ))}
      </ul>
    </div>
  );
}

/** Where a reason is settled. */
function Settle({ reason, job }: { readonly reason: ReasonAgainst; readonly job: Job }) {
  const { handBack: words } = useWords().counter;
  const label = { className: 'btn', 'aria-label': words.settleOf(reason.words), children: words.settle };
  switch (reason.kind) {
    case 'quote-without-yes':
      return <a href="#quote" {...label} />;
    case 'not-proved':
    case 'proof-failed':
    case 'mark-missing':
      return <a href="#proofs" {...label} />;
    case 'at-vendor':
      return <a href="#outside" {...label} />;
    case 'demand-open':
    case 'part-not-returned':
      return <Link to="/stores" hash={`job-${job.id}`} {...label} />;
    case 'handover-offered':
      return reason.subject === null ? null : (
        <Link to="/handovers/$handoverId" params={{ handoverId: reason.subject }} {...label} />
      );
    case 'opening-open':
    case 'tray-not-back':
      return <Link to="/engines/$engineId" params={{ engineId: job.engineId }} hash="trays" {...label} />;
    default:
      return <Link to="/engines/$engineId" params={{ engineId: job.engineId }} hash="obligations" {...label} />;
  }
}

/** The owner declined: an open engine goes home in boxes, by a page of its own; afterwards its packing list is found there. */
function InBoxes({ job, page }: { readonly job: Job; readonly page: HandBackPage }) {
  const { boxes: words } = useWords();
  const lead = useMay('lead');
  const mayGo = lead && job.handedBackAt === null && page.reasons.some(({ kind }) => kind === 'opening-open');
  if (!mayGo && !page.inBoxes) return null;
  return (
    <div>
      {mayGo ? <p className="note">{words.whyHere}</p> : null}
      <Link className="btn" to="/packing-lists/$jobId" params={{ jobId: job.id }}>
        {mayGo ? words.toBoxes : words.title}
      </Link>
    </div>
  );
}

/** What nobody may override: an open engine, or something of it at a vendor. */
const firm = new Set(['opening-open', 'at-vendor']);

function HandBackForm({ job, page }: { readonly job: Job; readonly page: HandBackPage }) {
  const { handBack: words } = useWords().counter;
  const lead = useMay('lead');
  const [note, setNote] = useState('');
  const [override, setOverride] = useState('');
  const writing = useWrite<{ handedBackAt: string }>();
  const against = page.reasons.length > 0;
  const mayOverride = lead && against && !page.reasons.some(({ kind }) => firm.has(kind));
  const ready = !writing.busy && (!against || (mayOverride && override.trim() !== ''));
  const give = () =>
    writing.write({
      path: `/jobs/${job.id}/hand-back`,
      body: {
        ...(note.trim() === '' ? {} : { note: note.trim() }),
        ...(mayOverride ? { override: override.trim() } : {}),
      },
    });
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) give();
      }}
    >
      <WordsField label={words.note} hint={words.noteHint} most={1000} value={note} onChange={setNote} />
      {mayOverride ? (
        <WordsField
          label={words.override}
          hint={words.overrideHint}
          most={500}
          value={override}
          onChange={setOverride}
        />
      ) : null}
      <p className="note">{words.maker}</p>
      <Refusal error={writing.error} />
      <div className="acts">
        <Button type="submit" kind="main" disabled={!ready}>
          {mayOverride ? words.giveAllTheSame : words.give}
        </Button>
      </div>
    </form>
  );
}

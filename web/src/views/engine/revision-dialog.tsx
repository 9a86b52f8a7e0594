import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import type { MovedToRevision, NewerRevision } from '#contracts/revision-moves.ts';
import { read } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { ChangesTable } from '../specs/changes-table.tsx';
import { ReasonField } from './reason-field.tsx';

type Job = NonNullable<EnginePage['job']>;
type Newer = NonNullable<NewerRevision['newer']>;

/** Said where a job is bound to a sheet that has a newer revision, with the way to see what that would change. */
export function NewerRevisionNote({ job }: { readonly job: Job }) {
  const words = useWords().engine;
  const [open, setOpen] = useState(false);
  return (
    <>
      <span className="note line">{words.newerRevision(job.revision.newest)}</span>
      {job.handedBackAt === null ? <Button onClick={() => setOpen(true)}>{words.newerLook}</Button> : null}
      {open ? <RevisionDialog job={job} onClose={() => setOpen(false)} /> : null}
    </>
  );
}

function RevisionDialog({ job, onClose }: { readonly job: Job; readonly onClose: () => void }) {
  const words = useWords();
  const newer = useQuery({
    queryKey: ['newer-revision', job.id],
    queryFn: ({ signal }) => read<NewerRevision>(`/jobs/${job.id}/newer-revision`, signal),
    meta: { follows: { jobId: job.id } },
  });
  return (
    <Dialog title={words.engine.newerTitle(job.number, job.revision.newest)} open onClose={onClose}>
      {newer.isError && newer.data === undefined ? (
        <Failed error={newer.error} again={() => void newer.refetch()} />
      ) : newer.data === undefined ? (
        <Skeleton label={words.specs.reading} lines={6} />
      ) : newer.data.newer === null ? (
        <p>{words.engine.newerNone}</p>
      ) : (
        <NewerFacts job={job} newer={newer.data.newer} onClose={onClose} />
      )}
    </Dialog>
  );
}

function NewerFacts({
  job,
  newer,
  onClose,
}: {
  readonly job: Job;
  readonly newer: Newer;
  readonly onClose: () => void;
}) {
  const words = useWords().engine;
  const lead = useMay('lead');
  return (
    <div className="decide">
      <p className="note">{words.newerWhy}</p>
      <h3>{words.newerOtherwise}</h3>
      {newer.otherwise.length === 0 ? (
        <p>{words.newerNothing}</p>
      ) : (
        <ul>
          {newer.otherwise.map(({ dimension, name, round, before, after }) => (
            <li key={`${dimension} ${round}`}>
              {name}, {round}: {before ?? words.newerNotJudged} → <b>{after ?? words.newerNotJudged}</b>
            </li>
          ))}
        </ul>
      )}
      <h3>{words.newerChanges}</h3>
      <ChangesTable revisionId={newer.id} since={newer.boundTo} />
      {lead ? <MoveForm job={job} revisionId={newer.id} onClose={onClose} /> : <p>{words.newerByLead}</p>}
    </div>
  );
}

interface MoveProps {
  readonly job: Job;
  readonly revisionId: string;
  readonly onClose: () => void;
}

function MoveForm({ job, revisionId, onClose }: MoveProps) {
  const words = useWords().engine;
  const [reason, setReason] = useState('');
  const moving = useWrite<MovedToRevision>();
  const ready = reason.trim() !== '' && !moving.busy;
  return (
    <form
      className="decide"
      onSubmit={(event) => {
        event.preventDefault();
        if (!ready) return;
        moving.write({ path: `/jobs/${job.id}/revision`, body: { revisionId, reason: reason.trim() } }, onClose);
      }}
    >
      <ReasonField hint={words.newerHint} rows={2} reason={reason} onReason={setReason} />
      <Refusal error={moving.error} />
      <div className="dialog-acts">
        <Button onClick={onClose}>{words.cancel}</Button>
        <Button type="submit" kind="main" disabled={!ready}>
          {words.newerMove}
        </Button>
      </div>
    </form>
  );
}

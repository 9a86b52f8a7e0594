import { useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { Job } from '#contracts/intake.ts';
import { RefusedError } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { jobQuery } from './counter-queries.ts';

interface Words {
  readonly complaint: string;
  readonly wishes: string;
}

/** What the owner says of it and wants; changed against the version that was read, so that nobody's change is lost. */
export function ComplaintSection({ job }: { readonly job: Job }) {
  const { amend: words } = useWords().counter;
  const [editing, setEditing] = useState<Job | null>(null);
  return (
    <section className="panel" id="complaint">
      <h2>{words.title}</h2>
      {editing === null ? (
        <>
          <Said of={job} />
          {job.handedBackAt === null ? (
            <div>
              <Button onClick={() => setEditing(job)}>{words.change}</Button>
            </div>
          ) : null}
        </>
      ) : (
        <AmendForm asRead={editing} now={job} onDone={() => setEditing(null)} onRead={setEditing} />
      )}
    </section>
  );
}

function Said({ of }: { readonly of: Words }) {
  const { amend: words } = useWords().counter;
  return (
    <dl className="said">
      <dt>{words.complaint}</dt>
      <dd>{of.complaint}</dd>
      <dt>{words.wishes}</dt>
      <dd>{of.wishes === '' ? <span className="note">{words.noWishes}</span> : of.wishes}</dd>
    </dl>
  );
}

interface AmendProps {
  /** The job as it was when editing began: its version is the one that is changed. */
  readonly asRead: Job;
  readonly now: Job;
  readonly onDone: () => void;
  readonly onRead: (job: Job) => void;
}

function AmendForm({ asRead, now, onDone, onRead }: AmendProps) {
  const { amend: words } = useWords().counter;
  const [mine, setMine] = useState<Words>({ complaint: asRead.complaint, wishes: asRead.wishes });
  const writing = useWrite<{ version: number }>();
  const client = useQueryClient();
  const conflict = writing.error instanceof RefusedError && writing.error.problem.status === 412;
  const save = (version: number) =>
    writing.write({ path: `/jobs/${asRead.id}`, method: 'PATCH', ifMatch: `"${version}"`, body: mine }, onDone);
  if (conflict) {
    return (
      <Conflict
        mine={mine}
        now={now}
        onMine={async () => {
          const latest = await client.fetchQuery({ ...jobQuery(asRead.id), staleTime: 0 });
          onRead(latest);
          save(latest.version);
        }}
        onTheirs={onDone}
      />
    );
  }
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (!writing.busy) save(asRead.version);
      }}
    >
      <Field label={words.complaint} error={faultAt(writing.error, '/complaint')}>
        {(input) => (
          <textarea
            {...input}
            rows={4}
            maxLength={2000}
            required
            value={mine.complaint}
            onChange={({ target }) => setMine({ ...mine, complaint: target.value })}
          />
        )}
      </Field>
      <Field label={words.wishes} error={faultAt(writing.error, '/wishes')}>
        {(input) => (
          <textarea
            {...input}
            rows={3}
            maxLength={2000}
            value={mine.wishes}
            onChange={({ target }) => setMine({ ...mine, wishes: target.value })}
          />
        )}
      </Field>
      <Refusal error={writing.error} />
      <div className="acts">
        <Button type="submit" kind="main" disabled={writing.busy || mine.complaint.trim() === ''}>
          {words.save}
        </Button>
        <Button onClick={onDone}>{words.cancel}</Button>
      </div>
    </form>
  );
}

interface ConflictProps {
  readonly mine: Words;
  readonly now: Job;
  readonly onMine: () => Promise<void>;
  readonly onTheirs: () => void;
}

/** Somebody saved meanwhile: both are shown, nothing is lost. */
function Conflict({ mine, now, onMine, onTheirs }: ConflictProps) {
  const { amend: words } = useWords().counter;
  // The refusal may be the first sign of the change: what stands now is read at once.
  const theirs = useQuery({ ...jobQuery(now.id), refetchOnMount: 'always' }).data ?? now;
  return (
    <div className="conflict" role="alert">
      <h3 className="hot">{words.conflict}</h3>
      <p>{words.conflictWhat}</p>
      <div className="both">
        <div>
          <h3>{words.theirs}</h3>
          <Said of={theirs} />
          <Button onClick={onTheirs}>{words.keepTheirs}</Button>
        </div>
        <div>
          <h3>{words.yours}</h3>
          <Said of={mine} />
          <Button onClick={() => void onMine()}>{words.putMine}</Button>
        </div>
      </div>
    </div>
  );
}

import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { EngineList } from '#contracts/engines.ts';
import type { WorkedFigure } from '#contracts/worked-figures.ts';
import { read } from '../../app/api.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { useKindName } from './kept-figures.tsx';
import type { BenchKind } from './panes/kinds.ts';

interface KeepProps {
  readonly kind: BenchKind;
  readonly given: object;
  readonly onClose: () => void;
}

/** Every engine with a job that isn't handed back, wherever it stands. */
function useOpenJobs() {
  const engines = useQuery({
    queryKey: ['engines', 'open jobs'],
    queryFn: ({ signal }) => read<EngineList>('/engines?state=in-shop&limit=200', signal),
  });
  return (engines.data?.items ?? []).flatMap(({ id, serial, family, lastVisit }) =>
    lastVisit === null || lastVisit.handedBackAt !== null
      ? []
      : [{ id, serial, family: family.name, job: { id: lastVisit.jobId, number: lastVisit.number } }],
  );
}

/** Keeps a calculation with one of the jobs in the shop; the server works it out once more and keeps its own figures. */
export function KeepDialog({ kind, given, onClose }: KeepProps) {
  const { looseBench } = useWords();
  const words = looseBench.keep;
  const named = useKindName();
  const engines = useOpenJobs();
  const [jobId, setJobId] = useState('');
  const [note, setNote] = useState('');
  const writing = useWrite<WorkedFigure>();
  const chosen = engines.find(({ job }) => job.id === jobId);
  const keep = () => {
    if (jobId === '') return;
    const said = note.trim() === '' ? {} : { note: note.trim() };
    writing.write({ path: `/jobs/${jobId}/worked-figures`, body: { kind, given, ...said } });
  };
  if (writing.reply !== undefined && chosen !== undefined) {
    return (
      <Dialog title={words.title} open onClose={onClose} acts={<Button onClick={onClose}>{words.done}</Button>}>
        <p role="status">{words.kept(named(kind), chosen.job.number)}</p>
        <p>
          <Link to="/engines/$engineId" params={{ engineId: chosen.id }}>
            {words.toEngine(chosen.serial)}
          </Link>
        </p>
      </Dialog>
    );
  }
  return (
    <Dialog
      title={words.title}
      open
      onClose={onClose}
      acts={
        <DialogActs
          act={words.keep}
          ready={jobId !== '' && !writing.busy}
          onAct={keep}
          close={words.leave}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <Field label={words.job}>
          {(input) => (
            <select {...input} value={jobId} onChange={({ target }) => setJobId(target.value)}>
              <option value="">{words.choose}</option>
              {[...engines]
                .sort((a, b) => a.job.number - b.job.number)
                .map(({ serial, family, job }) => (
                  <option key={job.id} value={job.id}>
                    {words.oneJob(job.number, family, serial)}
                  </option>
                ))}
            </select>
          )}
        </Field>
        <Field label={words.note}>
          {(input) => (
            <input {...input} maxLength={300} value={note} onChange={({ target }) => setNote(target.value)} />
          )}
        </Field>
        <p className="note">{words.why}</p>
        <Refusal error={writing.error} />
      </div>
    </Dialog>
  );
}

import { useState } from 'react';
import type { ProcedureRun, RunInterruption, RunStep } from '#contracts/procedure-runs.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

/** Nobody has resumed it yet. */
export const interruptionOf = ({ interruptions }: ProcedureRun): RunInterruption | undefined =>
  interruptions.find(({ resumed }) => resumed === null);

interface LeftProps {
  readonly run: ProcedureRun;
  readonly left: RunInterruption;
  readonly onResumed: (stepId: string) => void;
}

/** Who left the work, when, why, at what, and what is loose: read first, then go on. */
export function LeftPanel({ run, left, onResumed }: LeftProps) {
  const { left: words } = useWords().procedure;
  const format = useFormat();
  const writing = useWrite<{ stepId: string }>();
  const step = run.steps.find(({ id }) => id === left.stepId);
  return (
    <section className="left-panel" aria-label={words.title}>
      <h2>{words.title}</h2>
      <dl>
        <div>
          <dt>{words.who}</dt>
          <dd>{words.by(left.by.name, format.since(left.at))}</dd>
        </div>
        <div>
          <dt>{words.at}</dt>
          <dd>{step === undefined ? '' : words.step(step.ordinal, step.title)}</dd>
        </div>
        <div>
          <dt>{words.why}</dt>
          <dd>{left.why}</dd>
        </div>
        <div className="left-loose">
          <dt>{words.loose}</dt>
          <dd>{left.loose}</dd>
        </div>
      </dl>
      <Button
        big
        kind="main"
        disabled={writing.busy}
        onClick={() => writing.write({ path: `/procedure-runs/${run.id}/resume` }, ({ stepId }) => onResumed(stepId))}
      >
        {words.resume}
      </Button>
      <Refusal error={writing.error} />
    </section>
  );
}

/** Stays on the step it was left at until that is done. */
export function LeftHere({ run, step }: { readonly run: ProcedureRun; readonly step: RunStep }) {
  const { left: words } = useWords().procedure;
  const last = run.interruptions.findLast(({ stepId, resumed }) => stepId === step.id && resumed !== null);
  if (last === undefined || step.standing !== 'to do') return null;
  return (
    <p className="left-here" role="note">
      <b>{words.wasLeft(last.by.name, last.why)}</b> {last.loose}
    </p>
  );
}

interface LeaveProps {
  readonly runId: string;
  readonly step: RunStep;
}

/** Called away in the middle: why, and what is loose. */
export function LeaveIt({ runId, step }: LeaveProps) {
  const { leave: words } = useWords().procedure;
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  const [loose, setLoose] = useState('');
  const writing = useWrite();
  const ready = why.trim() !== '' && loose.trim() !== '' && !writing.busy;
  const close = () => setOpen(false);
  return (
    <>
      <Button big onClick={() => setOpen(true)}>
        {words.open}
      </Button>
      <Dialog title={words.title(step.ordinal, step.title)} open={open} onClose={close}>
        <form
          className="hands-form"
          onSubmit={(event) => {
            event.preventDefault();
            if (!ready) return;
            const body = { stepId: step.id, why: why.trim(), loose: loose.trim() };
            writing.write({ path: `/procedure-runs/${runId}/interrupt`, body }, close);
          }}
        >
          <Field label={words.why} big>
            {(input) => (
              <input {...input} maxLength={300} value={why} onChange={({ target }) => setWhy(target.value)} />
            )}
          </Field>
          <div className="quick">
            {words.quickWhy.map((each) => (
              <Button key={each} aria-pressed={why === each} onClick={() => setWhy(each)}>
                {each}
              </Button>
            ))}
          </div>
          <Field label={words.loose} hint={words.looseHint} big>
            {(input) => (
              <textarea
                {...input}
                rows={3}
                maxLength={500}
                value={loose}
                onChange={({ target }) => setLoose(target.value)}
              />
            )}
          </Field>
          <div className="quick">
            <Button aria-pressed={loose === words.nothing} onClick={() => setLoose(words.nothing)}>
              {words.nothing}
            </Button>
          </div>
          <Refusal error={writing.error} />
          <div className="dialog-acts">
            <Button type="submit" big kind="main" disabled={!ready}>
              {words.go}
            </Button>
            <Button big onClick={close}>
              {words.cancel}
            </Button>
          </div>
        </form>
      </Dialog>
    </>
  );
}

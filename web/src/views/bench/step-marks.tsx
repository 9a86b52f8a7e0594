import { useState } from 'react';
import type { RunStep } from '#contracts/procedures.ts';
import { Refusal } from '../../app/refusal.tsx';
import { signOut, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

interface StepMarksProps {
  readonly runId: string;
  readonly step: RunStep;
  /** Pieces of this step are not counted yet. */
  readonly countFirst: boolean;
  /** A piece is short: nothing goes on. */
  readonly stopped: boolean;
  /** What comes after it. */
  readonly then: string;
  readonly onDone: () => void;
  /** It waits for a second person, and stays in sight. */
  readonly onStay: () => void;
}

function SkipDialog({
  runId,
  step,
  onClose,
  onDone,
}: Omit<StepMarksProps, 'countFirst' | 'stopped' | 'then' | 'onStay'> & { onClose: () => void }) {
  const { mark: words } = useWords().procedure;
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const ready = reason.trim() !== '' && !writing.busy;
  return (
    <Dialog title={words.skipTitle(step.title)} open onClose={onClose}>
      <form
        className="hands-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (!ready) return;
          const path = `/procedure-runs/${runId}/steps/${step.id}/mark`;
          writing.write({ path, body: { mark: 'skipped', reason: reason.trim() } }, onDone);
        }}
      >
        <Field label={words.skipReason} big>
          {(input) => (
            <input {...input} maxLength={500} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" big kind="main" disabled={!ready}>
            {words.skipGo}
          </Button>
          <Button big onClick={onClose}>
            {words.cancel}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

function Marks({ step }: { readonly step: RunStep }) {
  const { mark: words } = useWords().procedure;
  const format = useFormat();
  if (step.marks.length === 0) return null;
  return (
    <ul className="step-marks">
      {step.marks.map(({ mark, by, at, reason }) => (
        <li key={mark}>
          <b>{words.by[mark]}</b> {words.who(by.name, format.since(at))}
          {reason === '' ? '' : `: ${reason}`}
        </li>
      ))}
    </ul>
  );
}

/** Somebody else's eyes: whoever did the step is told how, another person signs. */
function SecondPerson({ runId, step, onDone }: Omit<StepMarksProps, 'countFirst' | 'stopped' | 'then' | 'onStay'>) {
  const { mark: words } = useWords().procedure;
  const { person } = useSession();
  const writing = useWrite();
  const own = step.marks.some(({ mark, by }) => mark === 'done' && by.id === person.id);
  return (
    <div className="second-person">
      <h2>{words.secondWaits}</h2>
      {own ? (
        <>
          <p>{words.secondHow}</p>
          <div className="hands-acts">
            <Button big onClick={() => void signOut()}>
              {words.tapOutForThem}
            </Button>
            <Button big onClick={onDone}>
              {words.toNext}
            </Button>
          </div>
        </>
      ) : (
        <Button
          big
          kind="main"
          disabled={writing.busy}
          onClick={() =>
            writing.write({ path: `/procedure-runs/${runId}/steps/${step.id}/mark`, body: { mark: 'second person' } })
          }
        >
          {words.sign}
        </Button>
      )}
      <Refusal error={writing.error} />
    </div>
  );
}

/** Done, skipped with a reason, looked at by somebody else. */
export function StepMarks({ runId, step, countFirst, stopped, then, onDone, onStay }: StepMarksProps) {
  const { mark: words } = useWords().procedure;
  const [skipping, setSkipping] = useState(false);
  const writing = useWrite();
  const path = `/procedure-runs/${runId}/steps/${step.id}/mark`;
  return (
    <div className="step-foot">
      <Marks step={step} />
      {step.standing === 'waits for a second person' ? (
        <SecondPerson runId={runId} step={step} onDone={onDone} />
      ) : null}
      {step.standing === 'to do' ? (
        <>
          <Refusal error={writing.error} />
          <div className="hands-acts step-acts">
            <Button
              big
              kind="main"
              disabled={countFirst || stopped || writing.busy}
              onClick={() => writing.write({ path, body: { mark: 'done' } }, step.secondPerson ? onStay : onDone)}
            >
              {words.done}
            </Button>
            <Button big disabled={stopped} onClick={() => setSkipping(true)}>
              {words.skip}
            </Button>
          </div>
        </>
      ) : null}
      {step.standing === 'done' || step.standing === 'skipped' ? (
        <div className="hands-acts step-acts">
          <Button big kind="main" onClick={onDone}>
            {words.toNext}
          </Button>
        </div>
      ) : null}
      <p className="note step-next">
        {countFirst && !stopped && step.standing === 'to do' ? `${words.countFirst} ` : ''}
        {then}
      </p>
      {skipping ? (
        <SkipDialog
          runId={runId}
          step={step}
          onClose={() => setSkipping(false)}
          onDone={() => {
            setSkipping(false);
            onDone();
          }}
        />
      ) : null}
    </div>
  );
}

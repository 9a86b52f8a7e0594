import { useState } from 'react';
import type { RunStep } from '#contracts/procedures.ts';
import { Refusal } from '../../app/refusal.tsx';
import { signOut, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { LeaveIt } from './interruption.tsx';
import { ReasonDialog } from './reason-dialog.tsx';

interface StepMarksProps {
  readonly runId: string;
  readonly step: RunStep;
  /** Why it can't be marked done yet, in words; null: it can. */
  readonly first: string | null;
  /** A piece is short, or the run was left: nothing goes on. */
  readonly stopped: boolean;
  /** What comes after it. */
  readonly then: string;
  readonly onDone: () => void;
  /** It waits for a second person, and stays in sight. */
  readonly onStay: () => void;
}

/** Every mark of every round, and each time it was to be done again. */
function Marks({ step }: { readonly step: RunStep }) {
  const { mark: words } = useWords().procedure;
  const format = useFormat();
  const rows = [
    ...step.marks.map((row) => ({ ...row, what: words.by[row.mark], order: row.round * 2 })),
    ...step.redos.map((row) => ({ ...row, what: words.again, order: row.round * 2 - 1 })),
  ].sort((a, b) => a.order - b.order || (a.at < b.at ? -1 : 1));
  if (rows.length === 0) return null;
  return (
    <ul className="step-marks">
      {rows.map(({ what, by, at, reason, round }) => (
        <li key={`${round} ${what}`} className={round < step.round ? 'of-before' : undefined}>
          <b>{what}</b> {words.who(by.name, format.since(at))}
          {reason === '' ? '' : `: ${reason}`}
        </li>
      ))}
    </ul>
  );
}

/** Somebody else's eyes: whoever did the step is told how, another person signs. */
function SecondPerson({ runId, step, onDone }: Pick<StepMarksProps, 'runId' | 'step' | 'onDone'>) {
  const { mark: words } = useWords().procedure;
  const { person } = useSession();
  const writing = useWrite();
  const own = step.marks.some(({ mark, by, round }) => mark === 'done' && round === step.round && by.id === person.id);
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
          </div>
        </>
      ) : (
        <Button
          big
          kind="main"
          disabled={writing.busy}
          onClick={() =>
            writing.write(
              { path: `/procedure-runs/${runId}/steps/${step.id}/mark`, body: { mark: 'second person' } },
              onDone,
            )
          }
        >
          {words.sign}
        </Button>
      )}
      <Refusal error={writing.error} />
    </div>
  );
}

function ToDo(props: StepMarksProps & { readonly skip: () => void }) {
  const { runId, step, first, stopped, onDone, onStay, skip } = props;
  const { mark: words } = useWords().procedure;
  const writing = useWrite();
  const path = `/procedure-runs/${runId}/steps/${step.id}/mark`;
  return (
    <>
      <Refusal error={writing.error} />
      <div className="hands-acts step-acts">
        <Button
          big
          kind="main"
          disabled={first !== null || stopped || writing.busy}
          onClick={() => writing.write({ path, body: { mark: 'done' } }, step.secondPerson ? onStay : onDone)}
        >
          {words.done}
        </Button>
        {step.secondPerson ? null : (
          <Button big disabled={stopped} onClick={skip}>
            {words.skip}
          </Button>
        )}
        {stopped ? null : <LeaveIt runId={runId} step={step} />}
      </div>
    </>
  );
}

/** Done, skipped with a reason, looked at by somebody else, done again. */
export function StepMarks(props: StepMarksProps) {
  const { runId, step, first, stopped, then, onDone, onStay } = props;
  const { mark: words } = useWords().procedure;
  const [asking, setAsking] = useState<'skip' | 'again' | null>(null);
  const path = `/procedure-runs/${runId}/steps/${step.id}`;
  const close = () => setAsking(null);
  const settled = step.standing === 'done' || step.standing === 'skipped';
  return (
    <div className="step-foot">
      <Marks step={step} />
      {step.standing === 'waits for a second person' ? (
        <SecondPerson runId={runId} step={step} onDone={onStay} />
      ) : null}
      {step.standing === 'to do' ? <ToDo {...props} skip={() => setAsking('skip')} /> : null}
      {step.standing === 'to do' ? null : (
        <div className="hands-acts step-acts">
          <Button big kind={settled ? 'main' : 'plain'} onClick={onDone}>
            {words.toNext}
          </Button>
          {settled && !stopped ? (
            <Button big onClick={() => setAsking('again')}>
              {words.redo}
            </Button>
          ) : null}
        </div>
      )}
      <p className="note step-next">
        {first !== null && !stopped && step.standing === 'to do' ? `${first} ` : ''}
        {then}
      </p>
      {asking === 'skip' ? (
        <ReasonDialog
          title={words.skipTitle(step.title)}
          label={words.skipReason}
          go={words.skipGo}
          path={`${path}/mark`}
          bodyOf={(reason) => ({ mark: 'skipped', reason })}
          onClose={close}
          onDone={() => {
            close();
            onDone();
          }}
        />
      ) : null}
      {asking === 'again' ? (
        <ReasonDialog
          title={words.redoTitle(step.title)}
          label={words.redoReason}
          go={words.redoGo}
          path={`${path}/again`}
          bodyOf={(reason) => ({ reason })}
          onClose={close}
          onDone={() => {
            close();
            onStay();
          }}
        />
      ) : null}
    </div>
  );
}

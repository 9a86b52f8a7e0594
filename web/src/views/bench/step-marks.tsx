import { useState } from 'react';
import type { RunStep } from '#contracts/procedure-runs.ts';
import { ReasonDialog } from '../../app/reason-dialog.tsx';
import { Refusal } from '../../app/refusal.tsx';
import { signOut, useSession } from '../../app/session.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { LeaveIt } from './interruption.tsx';

interface StepMarksProps {
  readonly runId: string;
  readonly step: RunStep;
  /** Why it can't be marked done yet, in words; null: it can. */
  readonly first: string | null;
  /** Its photo is asked for and not taken. */
  readonly lacksPhoto: boolean;
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

/** What a reason is asked for. */
type Asking = 'skip' | 'again' | 'no photo';

function ToDo(props: StepMarksProps & { readonly ask: (what: Asking) => void }) {
  const { runId, step, first, lacksPhoto, stopped, onDone, onStay, ask } = props;
  const { mark: words, photoPoint } = useWords().procedure;
  const writing = useWrite();
  const path = `/procedure-runs/${runId}/steps/${step.id}/mark`;
  const held = first !== null || stopped;
  return (
    <>
      <Refusal error={writing.error} />
      <div className="hands-acts step-acts">
        <Button
          big
          kind="main"
          disabled={held || lacksPhoto || writing.busy}
          onClick={() => writing.write({ path, body: { mark: 'done' } }, step.secondPerson ? onStay : onDone)}
        >
          {words.done}
        </Button>
        {lacksPhoto && !held ? (
          <Button big onClick={() => ask('no photo')}>
            {photoPoint.skip}
          </Button>
        ) : null}
        {step.secondPerson ? null : (
          <Button big disabled={stopped} onClick={() => ask('skip')}>
            {words.skip}
          </Button>
        )}
        {stopped ? null : <LeaveIt runId={runId} step={step} />}
      </div>
    </>
  );
}

type ReasonAskedProps = Pick<StepMarksProps, 'runId' | 'step' | 'onDone' | 'onStay'> & {
  readonly asking: Asking;
  readonly close: () => void;
};

/** Why it is skipped, done again, or done without its photo. */
function ReasonAsked({ runId, step, asking, close, onDone, onStay }: ReasonAskedProps) {
  const { mark: words, photoPoint } = useWords().procedure;
  const path = `/procedure-runs/${runId}/steps/${step.id}`;
  const asked = {
    skip: {
      ...{ title: words.skipTitle(step.title), label: words.skipReason, go: words.skipGo, path: `${path}/mark` },
      bodyOf: (reason: string) => ({ mark: 'skipped', reason }),
      after: onDone,
    },
    again: {
      ...{ title: words.redoTitle(step.title), label: words.redoReason, go: words.redoGo, path: `${path}/again` },
      bodyOf: (reason: string) => ({ reason }),
      after: onStay,
    },
    'no photo': {
      ...{
        title: photoPoint.skipTitle(step.title),
        label: photoPoint.skipReason,
        go: words.done,
        path: `${path}/mark`,
      },
      bodyOf: (noPhoto: string) => ({ mark: 'done', noPhoto }),
      after: step.secondPerson ? onStay : onDone,
    },
  }[asking];
  const { after, ...dialog } = asked;
  return (
    <ReasonDialog
      {...dialog}
      big
      cancel={words.cancel}
      most={asking === 'no photo' ? 300 : 500}
      onClose={close}
      onDone={() => {
        close();
        after();
      }}
    />
  );
}

/** Done, skipped with a reason, looked at by somebody else, done again. */
export function StepMarks(props: StepMarksProps) {
  const { runId, step, first, lacksPhoto, stopped, then, onDone, onStay } = props;
  const { mark: words, photoPoint } = useWords().procedure;
  const [asking, setAsking] = useState<Asking | null>(null);
  const settled = step.standing === 'done' || step.standing === 'skipped';
  const before = first ?? (lacksPhoto ? photoPoint.first : null);
  return (
    <div className="step-foot">
      <Marks step={step} />
      {step.standing === 'waits for a second person' ? (
        <SecondPerson runId={runId} step={step} onDone={onStay} />
      ) : null}
      {step.standing === 'to do' ? (
        <ToDo {...props} ask={setAsking} />
      ) : (
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
        {before !== null && !stopped && step.standing === 'to do' ? `${before} ` : ''}
        {then}
      </p>
      {asking === null ? null : (
        <ReasonAsked {...{ runId, step, asking, onDone, onStay }} close={() => setAsking(null)} />
      )}
    </div>
  );
}

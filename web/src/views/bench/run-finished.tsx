import { Link } from '@tanstack/react-router';
import type { ProcedureRun } from '#contracts/procedure-runs.ts';
import { Button, buttonClass } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

interface RunFinishedProps {
  readonly run: ProcedureRun;
  readonly jobId: string;
  readonly other: () => void;
}

/** The list is through: what is still to be signed, and where the work goes from here. */
export function RunFinished({ run, jobId, other }: RunFinishedProps) {
  const words = useWords().procedure;
  const waiting = run.steps.filter(({ standing }) => standing === 'waits for a second person').length;
  return (
    <>
      <p className="note">{run.procedure.name}</p>
      <h1>{words.finished.title}</h1>
      {waiting === 0 ? null : <p className="step-words">{words.finished.waits(waiting)}</p>}
      <div className="hands-acts step-acts">
        <Link className={buttonClass('main', true)} to="/bench/$jobId/measure" params={{ jobId }}>
          {words.finished.measure}
        </Link>
        <Link className={buttonClass('plain', true)} to="/bench/$jobId/offer" params={{ jobId }}>
          {words.finished.handOver}
        </Link>
        <Button big onClick={other}>
          {words.otherProcedure}
        </Button>
      </div>
    </>
  );
}

import type { ProcedureRun, RunStep } from '#contracts/procedures.ts';
import { useWords } from '../../words/words.tsx';
import { settledSteps } from './procedure-choice.tsx';

const signs: Readonly<Record<RunStep['standing'], string>> = {
  'to do': '',
  'waits for a second person': '½',
  done: '✓',
  skipped: '–',
};

interface StepListProps {
  readonly run: ProcedureRun;
  readonly current: string | null;
  readonly onChoose: (stepId: string) => void;
  /** On a phone it opens at a tap. */
  readonly folded: boolean;
}

/** Every step with how it stands; a tap goes to it, back or ahead. */
export function StepList({ run, current, onChoose, folded }: StepListProps) {
  const words = useWords().procedure;
  const short = new Set(run.shortPieces.map(({ stepId }) => stepId));
  const summary = words.allSteps(settledSteps(run), run.steps.length);
  const list = (
    <ol className="step-list">
      {run.steps.map(({ id, ordinal, title, standing }) => (
        <li key={id}>
          <button
            type="button"
            aria-current={id === current ? 'step' : undefined}
            aria-label={words.stepName(ordinal, title, words.standing[standing])}
            className={`step-${standing.replaceAll(' ', '-')}${short.has(id) ? ' short' : ''}`}
            onClick={() => onChoose(id)}
          >
            <span className="num step-number">{ordinal}</span>
            <span>{title}</span>
            <span className="step-sign" aria-hidden="true">
              {short.has(id) ? '!' : signs[standing]}
            </span>
          </button>
        </li>
      ))}
    </ol>
  );
  return folded ? (
    <details className="step-fold">
      <summary>{summary}</summary>
      {list}
    </details>
  ) : (
    <nav aria-label={summary}>
      <p className="note">{summary}</p>
      <progress max={run.steps.length} value={settledSteps(run)} aria-label={summary} />
      {list}
    </nav>
  );
}

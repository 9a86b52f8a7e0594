import { Fragment, useEffect, useRef } from 'react';
import type { ProcedureRun, RunStep } from '#contracts/procedure-runs.ts';
import { useWords } from '../../words/words.tsx';

const signs: Readonly<Record<RunStep['standing'], string>> = {
  'to do': '',
  'waits for a second person': '½',
  done: '✓',
  skipped: '–',
  'left out': '╱',
  'not known yet': '?',
};

interface StepListProps {
  readonly run: ProcedureRun;
  readonly current: string | null;
  readonly onChoose: (stepId: string) => void;
  /** On a phone it opens at a tap. */
  readonly folded: boolean;
}

/** Every step with how it stands, by chapter; a tap goes to it, back or ahead. */
export function StepList({ run, current, onChoose, folded }: StepListProps) {
  const words = useWords().procedure;
  const here = useRef<HTMLButtonElement>(null);
  const scrolls = useRef<HTMLElement>(null);
  const short = new Set(run.shortPieces.map(({ stepId }) => stepId));
  const summary = words.allSteps(run.settled, run.all);
  useEffect(() => {
    const [box, step] = [scrolls.current, here.current];
    // Only the list moves, never the page under the hand.
    if (current !== null && box !== null && step !== null) box.scrollTop = step.offsetTop - box.clientHeight / 2;
  }, [current]);
  const list = (
    <ol className="step-list">
      {run.steps.map(({ id, ordinal, title, section, standing }, index) => (
        <Fragment key={id}>
          {section !== '' && section !== run.steps[index - 1]?.section ? (
            <li className="step-section">{section}</li>
          ) : null}
          <li>
            <button
              ref={id === current ? here : null}
              type="button"
              aria-current={id === current ? 'step' : undefined}
              aria-label={words.stepName(ordinal, title, words.standing[standing])}
              className={`step-${standing.replaceAll(' ', '-')}${short.has(id) ? ' short' : ''}`}
              onClick={() => onChoose(id)}
            >
              <span className="num step-number">{ordinal}</span> <span>{title}</span>
              <span className="step-sign" aria-hidden="true">
                {short.has(id) ? '!' : signs[standing]}
              </span>
            </button>
          </li>
        </Fragment>
      ))}
    </ol>
  );
  return folded ? (
    <details className="step-fold">
      <summary>{summary}</summary>
      {list}
    </details>
  ) : (
    <>
      <div>
        <p className="note">{summary}</p>
        <progress max={run.all} value={run.settled} aria-label={summary} />
      </div>
      <nav ref={scrolls} className="step-scroll" aria-label={summary}>
        {list}
      </nav>
    </>
  );
}

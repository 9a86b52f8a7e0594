import { Link } from '@tanstack/react-router';
import type { ProcedureRun, RunStep } from '#contracts/procedure-runs.ts';
import { buttonClass } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';

interface StepWordsProps {
  readonly jobId: string;
  readonly run: ProcedureRun;
  readonly step: RunStep;
}

/** What can hurt here, each hazard by its name, before the hand goes to it. */
function Cautions({ step }: { readonly step: RunStep }) {
  const words = useWords().procedure;
  if (step.cautions.length === 0) return null;
  return (
    <div className="caution" role="note" aria-label={words.caution}>
      {step.cautions.map(({ hazard, words: told }) => (
        <p key={`${hazard} ${told}`}>
          <b>{words.hazards[hazard]}</b> {told}
        </p>
      ))}
    </div>
  );
}

/** Required readings, each with whether it is there yet. */
function Readings({ jobId, step }: Pick<StepWordsProps, 'jobId' | 'step'>) {
  const words = useWords().procedure;
  if (step.readings.length === 0) return null;
  const open = step.readings.some(({ measured, name }) => !measured && name !== null);
  return (
    <section className="step-readings" aria-label={words.readings.title}>
      <h2>{words.readings.title}</h2>
      <ul>
        {step.readings.map(({ dimension, round, name, measured }) => (
          <li key={`${dimension} ${round}`} className={measured ? 'is-measured' : undefined}>
            <span>{name ?? dimension}</span>
            <span className="note">{words.readings.rounds[round]}</span>
            <b>
              {name === null ? words.readings.notOnSheet : measured ? words.readings.there : words.readings.missing}
            </b>
          </li>
        ))}
      </ul>
      <Link className={buttonClass(open ? 'main' : 'plain', true)} to="/bench/$jobId/measure" params={{ jobId }}>
        {words.readings.go}
      </Link>
    </section>
  );
}

export function StepWords({ jobId, run, step }: StepWordsProps) {
  const words = useWords().procedure;
  const outside = step.standing === 'left out' || step.standing === 'not known yet';
  return (
    <>
      <div>
        <p className="note step-of">
          {words.stepOf(step.ordinal, run.steps.length, run.procedure.name)}
          {step.section === '' ? null : ` · ${step.section}`}
        </p>
        <h1>{step.title}</h1>
      </div>
      {outside ? (
        <div className="step-outside" role="note">
          <b>{step.standing === 'left out' ? words.leftOut : words.notKnownYet}</b>
          <p>{step.because}</p>
        </div>
      ) : null}
      <Cautions step={step} />
      {step.words === '' ? null : <p className="step-words">{step.words}</p>}
      {step.secondPerson ? <p className="step-second">{words.mark.second}</p> : null}
      {step.fastenerSet === null || run.procedure.kind === 'strip' ? null : (
        <div className="hands-acts step-links">
          <Link className={buttonClass('plain', true)} to="/bench/$jobId/assemble" params={{ jobId }}>
            {words.torqueSet(step.fastenerSetName ?? step.fastenerSet)}
          </Link>
        </div>
      )}
      {outside ? null : <Readings jobId={jobId} step={step} />}
    </>
  );
}

import { Link } from '@tanstack/react-router';
import type { Opening } from '#contracts/openings.ts';
import type { ProcedureRun, RunStep } from '#contracts/procedures.ts';
import { buttonClass } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { CountOff } from './count-off.tsx';
import { PutBack } from './put-back.tsx';
import { StepMarks } from './step-marks.tsx';
import { StopPanel } from './stop-panel.tsx';
import type { TallyAtHand } from './tally-at-hand.ts';

interface StepPanelProps {
  readonly jobId: string;
  readonly run: ProcedureRun;
  readonly step: RunStep;
  /** The opening the engine is in; null while it is closed. */
  readonly opening: Opening | null;
  readonly openingRead: boolean;
  readonly tally: TallyAtHand;
  readonly onDone: () => void;
  /** This step stays on the screen after its mark. */
  readonly onStay: () => void;
}

function StepWords({ jobId, run, step }: Pick<StepPanelProps, 'jobId' | 'run' | 'step'>) {
  const words = useWords().procedure;
  return (
    <>
      <div>
        <p className="note step-of">{words.stepOf(step.ordinal, run.steps.length, run.procedure.name)}</p>
        <h1>{step.title}</h1>
      </div>
      {step.words === '' ? null : <p className="step-words">{step.words}</p>}
      {step.caution === '' ? null : (
        <div className="caution" role="note">
          <b>{words.caution}</b>
          <p>{step.caution}</p>
        </div>
      )}
      {step.secondPerson ? <p className="step-second">{words.mark.second}</p> : null}
      {step.fastenerSet === null && step.dimensionCode === null ? null : (
        <div className="hands-acts step-links">
          {step.fastenerSet === null || run.procedure.kind === 'strip' ? null : (
            <Link className={buttonClass('plain', true)} to="/bench/$jobId/assemble" params={{ jobId }}>
              {words.torqueSet(step.fastenerSet)}
            </Link>
          )}
          {step.dimensionCode === null ? null : (
            <Link className={buttonClass('plain', true)} to="/bench/$jobId/measure" params={{ jobId }}>
              {words.measureDimension(step.dimensionName ?? step.dimensionCode)}
            </Link>
          )}
        </div>
      )}
    </>
  );
}

/** One step: its words, its hazard, its pieces, its mark. A piece short anywhere up to here comes before all else. */
export function StepPanel(props: StepPanelProps) {
  const { jobId, run, step, opening, openingRead, tally, onDone, onStay } = props;
  const words = useWords().procedure;
  const shortHere = run.steps
    .filter(({ ordinal, standing }) => ordinal <= step.ordinal && standing !== 'skipped')
    .flatMap(({ pieces }) => pieces)
    .filter(({ counted, short }) => counted && short !== null && short > 0);
  const stopped = opening !== null && shortHere.length > 0;
  const uncounted = run.procedure.kind === 'strip' && step.pieces.some(({ counted }) => !counted);
  const nextStep = run.steps.find(({ ordinal, standing }) => ordinal > step.ordinal && standing === 'to do');
  return (
    <>
      <StepWords jobId={jobId} run={run} step={step} />
      {stopped
        ? shortHere.map((piece) => <StopPanel key={piece.id} piece={piece} opening={opening} trayId={tally.trayId} />)
        : null}
      {run.procedure.kind === 'strip' && step.pieces.length > 0 && openingRead ? (
        <CountOff jobId={jobId} step={step} opening={opening} tally={tally} stopped={stopped} />
      ) : null}
      {run.procedure.kind === 'assemble' && opening !== null ? (
        <PutBack
          opening={opening}
          counts={tally.counts}
          trays={tally.trays}
          stepPieces={step.pieces.map(({ name }) => name)}
        />
      ) : null}
      <StepMarks
        runId={run.id}
        step={step}
        countFirst={uncounted && step.standing === 'to do'}
        stopped={stopped}
        then={nextStep === undefined ? words.last : words.nextIs(nextStep.title)}
        onDone={onDone}
        onStay={onStay}
      />
    </>
  );
}

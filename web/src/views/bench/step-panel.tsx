import type { ReactNode } from 'react';
import type { Opening } from '#contracts/openings.ts';
import type { ProcedureRun, RunStep } from '#contracts/procedure-runs.ts';
import { useWords } from '../../words/words.tsx';
import { CountOff } from './count-off.tsx';
import { interruptionOf, LeftHere, LeftPanel } from './interruption.tsx';
import { PutBack } from './put-back.tsx';
import { StepAsk } from './step-ask.tsx';
import { StepMarks } from './step-marks.tsx';
import { lacksPhoto, StepPhoto } from './step-photo.tsx';
import { StepPutIn } from './step-put-in.tsx';
import { StepWords } from './step-words.tsx';
import { missingOf, StopPanel } from './stop-panel.tsx';
import type { TallyAtHand } from './tally-at-hand.ts';
import { TurnsEngine, useTurnLock } from './turn-lock.tsx';

interface StepPanelProps {
  readonly jobId: string;
  readonly run: ProcedureRun;
  readonly step: RunStep;
  /** The opening the engine is in; null while it is closed. */
  readonly opening: Opening | null;
  readonly openingRead: boolean;
  readonly tally: TallyAtHand;
  /** The photos of this step and the button for one more. */
  readonly photos: ReactNode;
  readonly onDone: () => void;
  /** This step stays on the screen after its mark. */
  readonly onStay: () => void;
  readonly onGoTo: (stepId: string) => void;
}

/** What has to be done before this step may be marked done; null: nothing. */
function useFirst(run: ProcedureRun, step: RunStep): string | null {
  const words = useWords().procedure;
  const held = run.steps.find(({ id }) => id === run.heldAtStepId);
  if (held !== undefined && held.ordinal < step.ordinal) return words.heldAt(held.ordinal, held.title);
  if (step.asks !== null && step.answers.length === 0) return words.ask.first;
  if (step.readings.some(({ measured, name }) => !measured && name !== null)) return words.readings.first;
  const uncounted = run.procedure.kind === 'strip' && step.pieces.some(({ counted }) => !counted);
  return uncounted ? words.mark.countFirst : null;
}

/** What is counted, put in or put back at this step. */
function Pieces({ jobId, run, step, opening, openingRead, tally, stopped }: StepPanelProps & { stopped: boolean }) {
  const { kind } = run.procedure;
  return (
    <>
      {kind === 'strip' && step.pieces.length > 0 && openingRead ? (
        <CountOff jobId={jobId} step={step} opening={opening} tally={tally} stopped={stopped} />
      ) : null}
      {opening === null ? null : <StepPutIn step={step} opening={opening} />}
      {kind === 'assemble' && opening !== null ? (
        <PutBack
          opening={opening}
          counts={tally.counts}
          trays={tally.trays}
          stepPieces={step.pieces.map(({ name }) => name)}
        />
      ) : null}
    </>
  );
}

/** One step: its hazards, its words, its pieces, its mark. A piece that is short, whoever counted it, comes before all else. */
export function StepPanel(props: StepPanelProps) {
  const { jobId, run, step, opening, tally, photos, onDone, onStay, onGoTo } = props;
  const words = useWords().procedure;
  const lock = useTurnLock(step, opening);
  const before = useFirst(run, step);
  const first = lock === null ? before : words.turns.first;
  const left = interruptionOf(run);
  const missing = opening === null ? [] : missingOf(opening);
  const stopped = missing.length > 0 || left !== undefined;
  const outside = step.standing === 'left out' || step.standing === 'not known yet';
  const nextStep = run.steps.find(({ ordinal, standing }) => ordinal > step.ordinal && standing === 'to do');
  return (
    <>
      {left === undefined ? null : <LeftPanel run={run} left={left} onResumed={onGoTo} />}
      <StepWords jobId={jobId} run={run} step={step} />
      <LeftHere run={run} step={step} />
      {opening === null
        ? null
        : missing.map((piece) => (
            <StopPanel key={piece.pieceId} piece={piece} opening={opening} trayId={tally.trayId} />
          ))}
      {outside ? null : <TurnsEngine jobId={jobId} step={step} lock={lock} />}
      {outside ? null : <Pieces {...props} stopped={stopped} />}
      {outside ? null : <StepAsk runId={run.id} step={step} blocked={left !== undefined} />}
      {outside ? null : <StepPhoto step={step}>{photos}</StepPhoto>}
      <StepMarks
        runId={run.id}
        step={step}
        first={first}
        lacksPhoto={lacksPhoto(step)}
        stopped={stopped}
        then={nextStep === undefined ? words.last : words.nextIs(nextStep.title)}
        onDone={onDone}
        onStay={onStay}
      />
    </>
  );
}

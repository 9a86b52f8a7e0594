import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { EngineStanding } from '#contracts/floor.ts';
import type { ProcedureRun } from '#contracts/procedure-runs.ts';
import { useHashPlace } from '../../app/hash-place.ts';
import { useMedia, useWall } from '../../app/use-media.ts';
import { Button } from '../../kit/button.tsx';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { PhotosHere } from '../photos/job-photos.tsx';
import { useCounts } from './counts.ts';
import { jobTraysQuery, openingQuery } from './hands-queries.ts';
import { interruptionOf } from './interruption.tsx';
import { RagPanel } from './rag-panel.tsx';
import { RunFinished } from './run-finished.tsx';
import { StepList } from './step-list.tsx';
import { StepPanel } from './step-panel.tsx';

interface RunPanelProps {
  readonly engine: EngineStanding;
  readonly run: ProcedureRun;
  /** The step somebody was led to. */
  readonly askedStep: string | null;
  readonly other: () => void;
}

/** Left the engine as it stands and how far the list has come, right the one step at hand. */
export function RunPanel({ engine, run, askedStep, other }: RunPanelProps) {
  const words = useWords().procedure;
  const phone = useMedia('(max-width: 820px)');
  const wall = useWall();
  const jobId = engine.job.id;
  const opening = useQuery(openingQuery(engine.opening === null ? null : { id: engine.opening.id, jobId })).data;
  const trays = useQuery(jobTraysQuery(jobId)).data?.items ?? [];
  const [chosen, setChosen] = useState<string | null>(askedStep);
  const [trayId, setTrayId] = useState<string | null>(null);
  const counts = useCounts(`run ${run.id}`);
  const at = chosen ?? interruptionOf(run)?.stepId ?? run.steps.find(({ next }) => next)?.id ?? run.heldAtStepId;
  const step = run.steps.find(({ id }) => id === at);
  const open = engine.opening === null || opening === undefined || opening.closedAt !== null ? null : opening;
  useHashPlace(open !== null);
  return (
    <div className="procedure">
      <aside className="procedure-side">
        <EngineSection
          family={engine.family}
          opening={engine.opening}
          size={wall ? 560 : phone ? 120 : 200}
          name={`${engine.family.name} ${engine.serial}`}
        />
        <StepList run={run} current={step?.id ?? null} onChoose={setChosen} folded={phone} />
        {open === null ? null : <RagPanel opening={open} />}
        <Button big onClick={other}>
          {words.otherProcedure}
        </Button>
      </aside>
      <main className="procedure-step">
        {step === undefined ? (
          <RunFinished run={run} jobId={jobId} other={other} />
        ) : (
          <StepPanel
            key={step.id}
            jobId={jobId}
            run={run}
            step={step}
            opening={open}
            openingRead={engine.opening === null || opening !== undefined}
            tally={{ trays, trayId, onTray: setTrayId, counts }}
            photos={
              <PhotosHere
                engineId={engine.id}
                target={{ jobId, of: { run: run.id, step: step.id }, words: step.title }}
                which={({ job, of }) => job.id === jobId && of.kind === 'step' && of.id === step.id}
              />
            }
            onDone={() => {
              // What was counted stands in the tally; a step that is done again is counted anew.
              counts.clear();
              setChosen(null);
            }}
            onStay={() => setChosen(step.id)}
            onGoTo={setChosen}
          />
        )}
      </main>
    </div>
  );
}

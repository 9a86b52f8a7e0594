import { useQuery } from '@tanstack/react-query';
import { useParams, useSearch } from '@tanstack/react-router';
import { type ReactNode, useState } from 'react';
import type { EngineStanding } from '#contracts/floor.ts';
import type { ProcedureRun } from '#contracts/procedure-runs.ts';
import { ServerClock } from '../../app/now.tsx';
import { useMay, useSession } from '../../app/session.tsx';
import { Forbidden } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { DepthStrip } from './depth-strip.tsx';
import { HandsFrame } from './hands-frame.tsx';
import { ToBench } from './hands-page.tsx';
import { floorQuery, runsQuery } from './hands-queries.ts';
import { ProcedureChoice } from './procedure-choice.tsx';
import { RunPanel } from './run-panel.tsx';
import './procedure.css';

/** The run to go on with: the latest begun that still has a step to do, else the latest. */
export function runToGoOn(runs: readonly ProcedureRun[]): ProcedureRun | undefined {
  const latestFirst = runs.toReversed();
  return latestFirst.find((run) => run.heldAtStepId !== null || run.steps.some(({ next }) => next)) ?? latestFirst[0];
}

function NotMine({ engine }: { readonly engine: EngineStanding }) {
  const words = useWords().procedure;
  const { person } = useSession();
  if (engine.holder?.id === person.id) return null;
  return (
    <span className="note hot">{engine.holder === null ? words.nobodys : words.notYours(engine.holder.name)}</span>
  );
}

/** `run` and `step` of the address, when somebody was led here to one step. */
function useAskedFor(): { readonly run: string | null; readonly step: string | null } {
  const { run, step }: { run?: unknown; step?: unknown } = useSearch({ strict: false });
  return { run: typeof run === 'string' ? run : null, step: typeof step === 'string' ? step : null };
}

/** The run that an address names, by itself or by one of its steps. */
const ledTo = (runs: readonly ProcedureRun[], asked: ReturnType<typeof useAskedFor>): ProcedureRun | undefined =>
  runs.find(({ id }) => id === asked.run) ?? runs.find(({ steps }) => steps.some(({ id }) => id === asked.step));

function Runs({ engine }: { readonly engine: EngineStanding }) {
  const words = useWords().procedure;
  const asked = useAskedFor();
  const { data, error, refetch } = useQuery(runsQuery(engine.job.id));
  const [choosing, setChoosing] = useState(false);
  const [runId, setRunId] = useState<string | null>(null);
  if (data === undefined) {
    return error === null ? (
      <Skeleton label={words.reading} lines={8} />
    ) : (
      <NotRead error={error} again={() => void refetch()} right="look" />
    );
  }
  const run = data.items.find(({ id }) => id === runId) ?? ledTo(data.items, asked) ?? runToGoOn(data.items);
  if (run === undefined || choosing) {
    return (
      <ProcedureChoice
        engine={engine}
        runs={data.items}
        onChoose={(id) => {
          setRunId(id);
          setChoosing(false);
        }}
      />
    );
  }
  return (
    <RunPanel
      key={`${run.id} ${asked.step}`}
      engine={engine}
      run={run}
      askedStep={run.steps.find(({ id }) => id === asked.step)?.id ?? null}
      other={() => setChoosing(true)}
    />
  );
}

/** One step at a time, in big letters: what to do, what can hurt, what comes off and is counted. */
export function ProcedureView() {
  const { jobId } = useParams({ from: '/bench/$jobId/procedure' });
  const words = useWords().procedure;
  const may = useMay('bench');
  const floor = useQuery(floorQuery);
  const engine = floor.data?.engines.find(({ job }) => job.id === jobId);
  const name = engine === undefined ? '' : `${engine.family.name} ${engine.serial}`;
  const frame = (body: ReactNode) => (
    <HandsFrame
      title={words.title(name)}
      head={
        engine === undefined ? null : (
          <>
            <b>
              {engine.family.name} <span className="num nowrap">{engine.serial}</span>
            </b>
            <NotMine engine={engine} />
          </>
        )
      }
    >
      {body}
    </HandsFrame>
  );
  if (!may) return frame(<Forbidden right="bench" />);
  if (floor.data === undefined) {
    return frame(
      floor.error === null ? (
        <Skeleton label={words.reading} lines={8} />
      ) : (
        <NotRead error={floor.error} again={() => void floor.refetch()} right="look" />
      ),
    );
  }
  if (engine === undefined) {
    return frame(
      <Empty title={words.notHere} act={<ToBench />}>
        {words.notHereWhy}
      </Empty>,
    );
  }
  return frame(
    <ServerClock asOf={floor.data.asOf} readAt={floor.dataUpdatedAt}>
      <DepthStrip opening={engine.opening} />
      <Runs engine={engine} />
    </ServerClock>,
  );
}

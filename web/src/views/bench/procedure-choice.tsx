import { useQuery } from '@tanstack/react-query';
import type { EngineStanding } from '#contracts/floor.ts';
import type { ProcedureRun } from '#contracts/procedure-runs.ts';
import type { ProcedureInList } from '#contracts/procedures.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { proceduresQuery } from './hands-queries.ts';
import { interruptionOf } from './interruption.tsx';

const order = ['strip', 'assemble', 'prove'] as const;

interface ProcedureChoiceProps {
  readonly engine: EngineStanding;
  readonly runs: readonly ProcedureRun[];
  readonly onChoose: (runId: string) => void;
}

/** Which list to follow: one that was begun, or a new one by what it is for. */
export function ProcedureChoice({ engine, runs, onChoose }: ProcedureChoiceProps) {
  const words = useWords().procedure;
  const { data, error, refetch } = useQuery(proceduresQuery(engine.family.id));
  const writing = useWrite<{ id: string }>();
  const begin = (versionId: string) =>
    writing.write({ path: `/jobs/${engine.job.id}/procedure-runs`, body: { versionId } }, ({ id }) => onChoose(id));
  if (data === undefined) {
    return error === null ? (
      <Skeleton label={words.reading} lines={6} />
    ) : (
      <NotRead error={error} again={() => void refetch()} right="look" />
    );
  }
  const fresh = data.items.filter(({ id }) => !runs.some(({ procedure }) => procedure.id === id));
  const row = ({ id, versionId, name, steps, version }: ProcedureInList) => (
    <li key={id}>
      <div>
        <b>{name}</b>
        <p className="note">{words.steps(steps, version)}</p>
      </div>
      <Button
        big
        kind="main"
        disabled={writing.busy}
        aria-label={`${words.begin}: ${name}`}
        onClick={() => begin(versionId)}
      >
        {words.begin}
      </Button>
    </li>
  );
  return (
    <main className="procedure-choice">
      <h1>{words.choose}</h1>
      <p className="note">{words.chooseWhy}</p>
      <Refusal error={writing.error} />
      {runs.length === 0 ? null : (
        <section>
          <h2>{words.runs}</h2>
          <ul>
            {runs.map((run) => (
              <li key={run.id}>
                <div>
                  <b>{run.procedure.name}</b>
                  <p className="note">
                    {interruptionOf(run) === undefined
                      ? words.progress(run.settled, run.all)
                      : words.wasLeft(run.settled, run.all, interruptionOf(run)?.by.name ?? '')}
                  </p>
                </div>
                <Button big aria-label={`${words.goOn}: ${run.procedure.name}`} onClick={() => onChoose(run.id)}>
                  {words.goOn}
                </Button>
              </li>
            ))}
          </ul>
        </section>
      )}
      {data.items.length === 0 ? <Empty title={words.noneToBegin}>{words.noneToBeginWhy}</Empty> : null}
      {order.map((kind) => {
        const ofKind = fresh.filter((each) => each.kind === kind);
        return ofKind.length === 0 ? null : (
          <section key={kind}>
            <h2>{words.kinds[kind]}</h2>
            <ul>{ofKind.map(row)}</ul>
          </section>
        );
      })}
    </main>
  );
}

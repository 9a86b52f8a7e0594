import { Link } from '@tanstack/react-router';
import type { DemandLine, Reserved } from '#contracts/demands.ts';
import type { EngineStanding } from '#contracts/floor.ts';
import type { StoresBoard } from '#contracts/stores.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { useWall } from '../../app/use-media.ts';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { DemandRow } from './demand-row.tsx';
import { HoldUntil, useHold } from './hold-until.tsx';
import { ReserveAnswer } from './reserve-answer.tsx';

/** What is issued or cancelled asks for nothing more: it is folded away, with its number. */
export const isDone = ({ state }: DemandLine): boolean => state === 'issued' || state === 'cancelled';

type Job = StoresBoard['jobs'][number];

/** In one line how far a job is with its parts. */
function Sum({ of }: { readonly of: Job }) {
  const { job: words } = useWords().stores;
  const format = useFormat();
  if (of.short > 0) {
    return (
      <p className="sum hot">
        {of.restartsOn === null ? words.shortNoDate(of.short) : words.shortUntil(of.short, format.day(of.restartsOn))}
      </p>
    );
  }
  const all = words.lines(of.lines.length);
  return <p className="sum">{of.toPick > 0 ? `${all}, ${words.toPick(of.toPick)}` : all}</p>;
}

interface JobProps {
  readonly of: Job;
  readonly standing: EngineStanding | undefined;
  readonly markedBin: string | null;
  readonly onOrder: (line: DemandLine) => void;
  readonly onPart: (partId: string) => void;
}

/** One open job and every line it wants. */
export function JobInStores({ of, standing, markedBin, onOrder, onPart }: JobProps) {
  const { job: words } = useWords().stores;
  const format = useFormat();
  const wall = useWall();
  const asks = useMay('ask for parts');
  const writing = useWrite<Reserved>();
  const hold = useHold(of);
  const { job } = of;
  const open = of.lines.some(({ notAsked, short }) => notAsked + short > 0);
  const [toDo, done] = [of.lines.filter((line) => !isDone(line)), of.lines.filter(isDone)];
  const rows = (lines: readonly DemandLine[]) => (
    <ul className="lines">
      {lines.map((line) => (
        <DemandRow
          key={line.id}
          line={line}
          job={job}
          hold={hold}
          marked={markedBin !== null && line.held.some(({ bin }) => bin === markedBin)}
          onOrder={onOrder}
          onPart={onPart}
        />
      ))}
    </ul>
  );
  const unasked = of.lines.some(({ notAsked }) => notAsked > 0);
  const reserve = (allOrNothing: boolean) =>
    writing.write({ path: `/jobs/${job.id}/reservations`, body: { allOrNothing, ...hold?.body } });
  const waits = writing.busy || hold?.past === true;
  return (
    <section
      className="job raised"
      id={`job-${job.id}`}
      tabIndex={-1}
      aria-label={words.section(job.family, job.serial)}
    >
      <header>
        {standing === undefined ? null : (
          <EngineSection family={standing.family} opening={standing.opening} size={wall ? 92 : 64} decorative />
        )}
        <div className="who">
          <h2>
            <Link to="/engines/$engineId" params={{ engineId: job.engineId }}>
              {job.family} <span className="num">{job.serial}</span>
            </Link>
          </h2>
          <p className="note num">
            {words.number(job.number)},{' '}
            {of.promisedOn === null ? words.noPromise : words.due(format.day(of.promisedOn))}
          </p>
          {of.ready === null ? null : (
            <p className="note num">
              {words.ready(of.ready.basis, of.ready.on === null ? null : format.day(of.ready.on))}
            </p>
          )}
        </div>
        <Sum of={of} />
        {asks && open ? (
          <div className="kit-acts">
            <Button kind={unasked ? 'main' : 'plain'} disabled={waits} onClick={() => reserve(true)}>
              {words.reserveAll}
            </Button>
            <Button disabled={waits} onClick={() => reserve(false)}>
              {words.reserveSome}
            </Button>
            {hold === null ? null : <HoldUntil hold={hold} />}
          </div>
        ) : null}
      </header>
      <Refusal error={writing.error} />
      {writing.reply === undefined ? null : <ReserveAnswer answer={writing.reply} onDismiss={writing.clear} />}
      {toDo.length === 0 ? null : rows(toDo)}
      {done.length === 0 ? null : (
        <details className="done">
          <summary>{words.done(done.length)}</summary>
          {rows(done)}
        </details>
      )}
    </section>
  );
}

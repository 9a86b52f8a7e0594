import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import { useMay } from '../../app/session.tsx';
import { Waits } from '../../kit/waits.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { EngineSection } from '../engine/engine-section.tsx';
import { waitLabels } from '../engine/wait-labels.ts';
import { openQuotesQuery } from './counter-queries.ts';

/** How far the owner's agreement is. */
function Yes({ jobId }: { readonly jobId: string }) {
  const { yes: words } = useWords().counter;
  const format = useFormat();
  const quotes = useQuery(openQuotesQuery).data?.items;
  const newest = quotes?.find((quote) => quote.jobId === jobId);
  if (quotes === undefined) return null;
  if (newest === undefined) return <span className="note">{words.none}</span>;
  if (newest.yes === null) return <span>{words.waiting(format.money(newest.total))}</span>;
  return <b>{newest.yes ? words.yes(format.money(newest.sum ?? newest.total)) : words.no}</b>;
}

/** What one engine waits for, as labels. */
export function WaitsOf({ standing, floor }: { readonly standing: EngineStanding; readonly floor: Floor }) {
  const { engine, counter } = useWords();
  const format = useFormat();
  const labels = waitLabels(
    {
      waits: standing.waits,
      opening: standing.opening,
      handovers: standing.handovers,
      findings: floor.pastOrUndecided,
      today: floor.today,
    },
    { format, words: engine },
  );
  return <Waits waits={labels} none={counter.waitsNone} />;
}

/** The promised day of one engine, or that it has passed. */
export function PromiseOf({ standing, today }: { readonly standing: EngineStanding; readonly today: string }) {
  const { counter: words } = useWords();
  const format = useFormat();
  const { promise } = standing;
  if (promise === null) return <span className="note">{words.noPromise}</span>;
  const day = format.day(promise.readyOn);
  return promise.readyOn < today ? (
    <b className="hot">{words.late(day)}</b>
  ) : (
    <span className="num">{words.promised(day, promise.sureOf5)}</span>
  );
}

/** One job in the shop, as the counter looks at it. */
export function JobLine({ standing, floor }: { readonly standing: EngineStanding; readonly floor: Floor }) {
  const { counter: words } = useWords();
  const money = useMay('money');
  const { job, family, serial, owner, opening } = standing;
  return (
    <li className="job-line">
      <EngineSection family={family} opening={opening} size={56} decorative />
      <div className="who">
        <h3>
          <Link to="/counter/$jobId" params={{ jobId: job.id }}>
            {family.name} <span className="num">{serial}</span>
          </Link>
        </h3>
        <p className="note num">
          {words.job(job.number)}, {owner.name}
        </p>
      </div>
      <div className="promise-cell">
        <span className="label">{words.columns.promise}</span>
        <PromiseOf standing={standing} today={floor.today} />
      </div>
      {money ? (
        <div className="yes-cell num">
          <span className="label">{words.columns.yes}</span>
          <Yes jobId={job.id} />
        </div>
      ) : null}
      <div className="waits-cell">
        <span className="label">{words.columns.waits}</span>
        <WaitsOf standing={standing} floor={floor} />
      </div>
    </li>
  );
}

import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { EngineStanding, Floor } from '#contracts/floor.ts';
import type { Job } from '#contracts/intake.ts';
import { useHashPlace } from '../../app/hash-place.ts';
import { useMay } from '../../app/session.tsx';
import { Failed, Forbidden } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { LabelButton } from '../labels/label-button.tsx';
import { PhotosSection } from '../photos/photos-section.tsx';
import { floorQuery } from '../stores/stores-queries.ts';
import { ComplaintSection } from './complaint-section.tsx';
import { jobQuery, sheetQuery } from './counter-queries.ts';
import { HandBackSection } from './hand-back-section.tsx';
import { JobFacts } from './job-facts.tsx';
import { WaitsOf } from './job-line.tsx';
import { NextBay } from './next-bay.tsx';
import { OutsideSection } from './outside-section.tsx';
import { PromiseSection } from './promise-section.tsx';
import { QuoteSection } from './quote-section.tsx';
import './counter.css';

/** One job at the counter: what was said and promised, the quote and its yes, and handing back. */
export function CounterJobView() {
  const { counter: words } = useWords();
  const { jobId } = useParams({ strict: false });
  const job = useQuery({ ...jobQuery(jobId ?? ''), enabled: jobId !== undefined });
  const floor = useQuery(floorQuery);
  const mayCounter = useMay('counter');
  useHashPlace(job.isSuccess);
  if (!mayCounter) {
    return (
      <main className="counter-refused">
        <Forbidden right="counter" />
      </main>
    );
  }
  if (job.isError && job.data === undefined) {
    return (
      <main className="counter-refused">
        <Failed error={job.error} again={() => void job.refetch()} />
      </main>
    );
  }
  if (job.data === undefined) {
    return (
      <main className="counter-refused">
        <Skeleton label={words.readingJob} lines={8} />
      </main>
    );
  }
  const standing = floor.data?.engines.find((engine) => engine.job.id === job.data.id);
  return <JobAtCounter key={job.data.id} job={job.data} standing={standing} floor={floor.data} />;
}

interface JobProps {
  readonly job: Job;
  readonly standing: EngineStanding | undefined;
  readonly floor: Floor | undefined;
}

function JobAtCounter({ job, standing, floor }: JobProps) {
  const { counter: words } = useWords();
  const sheet = useQuery(sheetQuery(job.id)).data;
  const money = useMay('money');
  const open = job.handedBackAt === null;
  return (
    <main className="counter-job">
      <nav className="paths">
        <Link className="btn" to="/counter">
          {words.back}
        </Link>
        <Link className="btn" to="/engines/$engineId" params={{ engineId: job.engineId }}>
          {words.toEngine}
        </Link>
        <Link className="btn" to="/sheets/$jobId" params={{ jobId: job.id }}>
          {words.toSheet}
        </Link>
        <LabelButton labels={[{ kind: 'engine', id: job.engineId }]} />
      </nav>
      <JobFacts job={job} sheet={sheet} standing={standing} />
      {open ? null : <p className="closed-job">{words.closedJob}</p>}
      <PhotosSection engineId={job.engineId} jobId={open ? job.id : null} />
      <div className="job-columns">
        <div className="column">
          <ComplaintSection job={job} />
          {money ? (
            <QuoteSection jobId={job.id} open={open} owner={sheet?.owner ?? standing?.owner.name ?? ''} />
          ) : null}
          <HandBackSection job={job} />
        </div>
        <div className="column">
          {standing === undefined || floor === undefined ? null : (
            <section className="panel">
              <h2>{words.waits}</h2>
              <WaitsOf standing={standing} floor={floor} />
            </section>
          )}
          <PromiseSection jobId={job.id} open={open} today={floor?.today ?? ''} />
          {open && floor !== undefined ? (
            <NextBay jobId={job.id} bays={floor.bays} planned={standing?.assignedBay ?? null} />
          ) : null}
          <OutsideSection jobId={job.id} today={floor?.today ?? ''} />
        </div>
      </div>
    </main>
  );
}

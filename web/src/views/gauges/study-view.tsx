import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import type { Study } from '#contracts/gauge-studies.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { studyQuery } from './gauges-queries.ts';
import { StudyKeying } from './study-keying.tsx';
import { StudyFound } from './study-result.tsx';
import './gauges.css';

/** The lead closes it, and lets the register take what it found, or not. */
function Closing({ study }: { readonly study: Study }) {
  const words = useWords().gauges.study;
  const format = useFormat();
  const lead = useMay('set up');
  const writing = useWrite<Study>();
  const { closed, result } = study;
  if (closed !== null) {
    return (
      <p>
        {words.closedBy(closed.by.name, format.since(closed.at))} {study.adopted ? words.adopted : ''}
      </p>
    );
  }
  if (!lead) return null;
  const close = (adopt: boolean) => writing.write({ path: `/gauge-studies/${study.id}/close`, body: { adopt } });
  return (
    <div className="acts">
      {result === null ? null : (
        <Button kind="main" disabled={writing.busy} onClick={() => close(true)}>
          {words.adopt(format.decimal(result.repeatability.value), result.repeatability.unit)}
        </Button>
      )}
      <Button disabled={writing.busy} onClick={() => close(false)}>
        {words.close}
      </Button>
      <Refusal error={writing.error} />
    </div>
  );
}

/** One gauge study: its readings, taken blind, and what they say. */
export function StudyView() {
  const { gauges } = useWords();
  const words = gauges.study;
  const { studyId } = useParams({ from: '/framed/gauge-studies/$studyId' });
  const bench = useMay('bench');
  const found = useQuery(studyQuery(studyId));
  const study = found.data;
  if (found.isPending) return <Skeleton label={words.reading} lines={8} />;
  if (study === undefined) return <Failed error={found.error} again={() => void found.refetch()} />;
  const wanting = study.readingsWanted - study.readingsTaken;
  return (
    <main className="gauges">
      <div className="gauges-head">
        <h1>{study.name}</h1>
        <p className="note">
          {words.of(study.instrument.name)}: {gauges.studies.line(study.parts, study.trials, study.people.length)}
        </p>
        <Link to="/gauges/$instrumentId" params={{ instrumentId: study.instrument.id }}>
          {words.back}
        </Link>
      </div>
      <div className="study-progress">
        <progress max={study.readingsWanted} value={study.readingsTaken} aria-label={words.reading} />
        <span className="num">{gauges.studies.progress(study.readingsTaken, study.readingsWanted)}</span>
      </div>
      {study.closed === null && wanting > 0 && bench ? <StudyKeying study={study} /> : null}
      {study.closed !== null && wanting > 0 ? <p className="hot">{words.wanting(wanting)}</p> : null}
      {study.result === null ? null : <StudyFound study={study} result={study.result} />}
      <Closing study={study} />
    </main>
  );
}

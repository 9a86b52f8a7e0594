import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { useEffect } from 'react';
import { onSent } from '../../app/outbox-sending.ts';
import { useMay } from '../../app/session.tsx';
import { EmptyNote, Failed, Forbidden } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import './bench-frame.css';
import './measure.css';
import { BenchBar } from './bench-bar.tsx';
import { benchQuery, putReply } from './bench-query.ts';
import { KeptBanner } from './kept-banner.tsx';
import { MeasureBench } from './measure-bench.tsx';
import { measuredOf } from './measuring.ts';

/** One reading at a time: where, how much, what it means. */
export function MeasureView() {
  const { jobId } = useParams({ from: '/bench/$jobId/measure' });
  const { app, measure } = useWords();
  const may = useMay('bench');
  const { data: bench, error, refetch } = useQuery(benchQuery(jobId));
  useEffect(() => onSent(putReply), []);
  const engine = bench === undefined ? '' : `${bench.family} ${bench.serial}`;
  const body = () => {
    if (!may) return <Forbidden right="bench" />;
    if (bench === undefined) {
      return error === null ? (
        <Skeleton label={app.states.loading} lines={8} />
      ) : (
        <Failed error={error} again={() => void refetch()} />
      );
    }
    if (bench.handedBack) return <EmptyNote>{measure.handedBack}</EmptyNote>;
    if (measuredOf(bench).length === 0) return <EmptyNote>{measure.noSheet}</EmptyNote>;
    return <MeasureBench bench={bench} />;
  };
  return (
    <div className="bench-frame">
      <title>{measure.title(engine)}</title>
      <BenchBar engine={engine} doing={measure.doing} />
      <KeptBanner />
      {body()}
    </div>
  );
}

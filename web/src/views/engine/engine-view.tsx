import { useQuery } from '@tanstack/react-query';
import { useParams } from '@tanstack/react-router';
import { useState } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import { read } from '../../app/api.ts';
import { useHashPlace } from '../../app/hash-place.ts';
import { useToday } from '../../app/today.ts';
import { useMedia } from '../../app/use-media.ts';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import { PhotosSection } from '../photos/photos-section.tsx';
import { BoreMapSection } from './bore-map-section.tsx';
import { DecideDialog } from './decide-dialog.tsx';
import { HappenedSection, VisitsSection } from './happened-section.tsx';
import { MeasuredSection } from './measured-section.tsx';
import { Needs } from './needs.tsx';
import { NotRead } from './not-read.tsx';
import { ObligationsSection } from './obligations-section.tsx';
import { PageActs, PageJump, PageSection, PageTitle } from './page-head.tsx';
import { PartsSection, RunsSection } from './parts-section.tsx';
import { soonestWornFirst } from './soonest-worn-first.ts';
import { TraysSection } from './trays-section.tsx';
import { WearOthers, WearSection, WearUnknown } from './wear-section.tsx';
import { WorkedSection } from './worked-section.tsx';
import './engine.css';
import './engine-parts.css';

/** What a bore is drawn against: the least size of its class as new, and where it's worn out. */
function drawnAgainst(page: EnginePage, map: EnginePage['boreMaps'][number]) {
  const measured = page.measured.find((one) => one.dimension === map.dimension);
  const limits = measured?.findings.find(({ id }) => id === map.findingId)?.limits ?? measured?.limits;
  const figure = (quantity: { readonly value: string } | null | undefined) =>
    quantity === null || quantity === undefined ? null : Number(quantity.value);
  // The sheet has one nominal for all its size classes: an oversize bore is drawn against the limits of its own.
  return { nominal: figure(limits?.standard.low ?? map.nominal), limit: figure(limits?.service.high) };
}

/** So many charts beside the bore map are looked at, on a phone one; the rest is told in a line each. */
const MOST_DRAWN = 3;

const isCharted = ({ points }: EnginePage['wear'][number]): boolean => points.length >= 3;

function PageBody({ page }: { readonly page: EnginePage }) {
  const words = useWords().engine;
  const today = useToday();
  const [deciding, setDeciding] = useState<string | null>(null);
  const [allDrawn, setAllDrawn] = useState(false);
  const { job, standing } = page;
  const charted = soonestWornFirst(page.wear.filter(isCharted));
  const narrow = useMedia('(max-width: 620px)');
  const most = narrow ? 1 : MOST_DRAWN;
  const drawn = allDrawn || charted.length <= most + 1 ? charted : charted.slice(0, most);
  const listed = charted.slice(drawn.length);
  const obligation = page.obligations.find(({ id }) => id === deciding);
  const others = page.obligations.filter(
    ({ id, decision, discharge }) => id !== deciding && decision === null && discharge === null,
  );
  return (
    <main className="engine-page">
      <div className="page-head">
        <PageSection page={page} />
        <div className="page-title">
          <PageTitle page={page} />
          {job === null ? <p className="state empty">{words.neverTakenIn}</p> : null}
          {job !== null && standing === null ? <p className="note">{words.notIn}</p> : null}
          <PageActs page={page} />
          <PageJump page={page} />
          {standing === null ? null : (
            <Needs standing={standing} obligations={page.obligations} today={today} decide={setDeciding} />
          )}
        </div>
      </div>
      <ObligationsSection
        engineId={page.id}
        obligations={page.obligations}
        jobId={standing === null ? null : (job?.id ?? null)}
        decide={setDeciding}
      />
      {job === null ? null : <MeasuredSection measured={page.measured} />}
      <div className="page-pair">
        {page.boreMaps.map((map) => (
          <BoreMapSection key={map.findingId} map={map} {...drawnAgainst(page, map)} />
        ))}
        {drawn.map((history) => (
          <WearSection key={`${history.dimension} ${history.fittedPartId}`} history={history} engineId={page.id} />
        ))}
      </div>
      <WearOthers histories={listed} drawAll={() => setAllDrawn(true)} />
      <WearUnknown histories={page.wear.filter((history) => !isCharted(history))} />
      <PhotosSection engineId={page.id} jobId={standing === null ? null : (job?.id ?? null)} />
      {job === null ? null : <WorkedSection jobId={job.id} open={standing !== null} />}
      <div className="page-pair">
        <div>
          <TraysSection engineId={page.id} trays={page.trays} />
          <RunsSection runs={page.runs} />
          <PartsSection parts={page.fittedParts} />
        </div>
        <div>
          <HappenedSection engineId={page.id} />
          <VisitsSection visits={page.visits} />
        </div>
      </div>
      {obligation === undefined ? null : (
        <DecideDialog obligation={obligation} others={others} page={page} onClose={() => setDeciding(null)} />
      )}
    </main>
  );
}

/** The frame of the page stands while it's read. */
function PageSkeleton() {
  const words = useWords().engine;
  return (
    <main className="engine-page" aria-busy="true">
      <div className="page-head">
        <div className="page-section waiting" />
        <div className="page-title">
          <div className="tb waiting" />
          <Skeleton label={words.readingPage} lines={6} />
        </div>
      </div>
    </main>
  );
}

/** Everything about one engine: how it stands, what it waits for, what was measured, what happened. */
export function EngineView() {
  const { engineId } = useParams({ from: '/framed/engines/$engineId' });
  const { data, error, isPending, refetch } = useQuery({
    queryKey: ['engine', engineId],
    queryFn: ({ signal }) => read<EnginePage>(`/engines/${encodeURIComponent(engineId)}`, signal),
    meta: { follows: { engineId } },
  });
  useHashPlace(data !== undefined);
  if (isPending) return <PageSkeleton />;
  if (data === undefined)
    return (
      <main className="engine-page">
        <NotRead error={error} again={() => void refetch()} right="look" />
      </main>
    );
  return <PageBody key={data.id} page={data} />;
}

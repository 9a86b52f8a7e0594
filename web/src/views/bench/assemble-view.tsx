import { useQuery } from '@tanstack/react-query';
import { useParams, useRouter, useSearch } from '@tanstack/react-router';
import { useEffect, useState } from 'react';
import type { AssemblyPage } from '#contracts/assembly.ts';
import type { BenchView } from '#contracts/bench.ts';
import { onSent } from '../../app/outbox-sending.ts';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useWords } from '../../words/words.tsx';
import './bench-frame.css';
import './measure.css';
import './assemble.css';
import { assemblyQuery, putPull } from './assembly-query.ts';
import { type AssemblyStep, AssemblySteps } from './assembly-steps.tsx';
import { BenchBar } from './bench-bar.tsx';
import { benchQuery } from './bench-query.ts';
import { ClosingPane } from './closing-pane.tsx';
import { FastenersPane } from './fasteners-pane.tsx';
import { KeptBanner } from './kept-banner.tsx';
import { LashPane } from './lash-pane.tsx';
import { RingsPane } from './rings-pane.tsx';

const steps = ['rings', 'fasteners', 'lash', 'prove'] as const;

/** The first that has something to set. */
const firstStep = (page: AssemblyPage): AssemblyStep =>
  page.rings.length > 0 && page.ringsPlaced === null ? 'rings' : 'fasteners';

/** The step stands in the address, so that a link to one leads there from anywhere, from this bench too. */
function useStep(page: AssemblyPage): readonly [AssemblyStep, (step: AssemblyStep) => void] {
  const router = useRouter();
  const { step: asked }: { step?: unknown } = useSearch({ strict: false });
  const [first] = useState(() => firstStep(page));
  const go = (step: AssemblyStep) => router.history.replace(`/bench/${page.jobId}/assemble?step=${step}`);
  return [steps.find((step) => step === asked) ?? first, go];
}

function Assembly({ page, bench }: { readonly page: AssemblyPage; readonly bench: BenchView }) {
  const { assemble } = useWords();
  const may = useMay('bench');
  const [step, setStep] = useStep(page);
  return (
    <main className="assemble">
      <AssemblySteps page={page} step={step} onStep={setStep} />
      <div className="assemble-pane">
        {may ? null : <p className="state forbidden">{assemble.notYours}</p>}
        {step === 'rings' ? <RingsPane page={page} /> : null}
        {step === 'fasteners' ? <FastenersPane page={page} /> : null}
        {step === 'lash' ? <LashPane page={page} gauges={bench.instruments} /> : null}
        {step === 'prove' ? <ClosingPane page={page} onStep={setStep} /> : null}
        <p className="note">{assemble.manual}</p>
      </div>
    </main>
  );
}

/** Rings, fasteners, lash, and the closing of one engine, each with its drawing. */
export function AssembleView() {
  const { jobId } = useParams({ from: '/bench/$jobId/assemble' });
  const { app, assemble } = useWords();
  const page = useQuery(assemblyQuery(jobId));
  const bench = useQuery(benchQuery(jobId));
  useEffect(() => onSent(putPull), []);
  const error = page.error ?? bench.error;
  const engine = page.data === undefined ? '' : `${page.data.family} ${page.data.serial}`;
  return (
    <div className="bench-frame">
      <title>{assemble.title(engine)}</title>
      <BenchBar engine={engine} doing={assemble.doing} />
      <KeptBanner />
      {page.data !== undefined && bench.data !== undefined ? (
        <Assembly page={page.data} bench={bench.data} />
      ) : error === null ? (
        <Skeleton label={app.states.loading} lines={8} />
      ) : (
        <Failed
          error={error}
          again={() => {
            void page.refetch();
            void bench.refetch();
          }}
        />
      )}
    </div>
  );
}

import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate, useParams } from '@tanstack/react-router';
import type { ReactNode } from 'react';
import type { InstrumentFacts } from '#contracts/instruments.ts';
import { shortest } from '#domain/units/format-quantity.ts';
import { useMay } from '../../app/session.tsx';
import { Failed, Missing } from '../../app/view-states.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { CertificateForm, RetireForm } from './certificate-form.tsx';
import { CheckForm } from './check-form.tsx';
import { gaugesQuery, isFeeler } from './gauges-queries.ts';
import { CertificateState } from './gauges-view.tsx';
import { StudiesSection } from './studies-section.tsx';
import './gauges.css';

function Fact({ name, children }: { readonly name: string; readonly children: ReactNode }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd className="num">{children}</dd>
    </div>
  );
}

function Facts({ gauge }: { readonly gauge: InstrumentFacts }) {
  const { gauges } = useWords();
  const words = gauges.facts;
  const format = useFormat();
  const { range, repeatability, repeatabilityStudyId, calibratedOn } = gauge;
  const unit = symbolOf(gauge.unit);
  const figure = (value: string) => `${format.decimal(shortest(value, 0))} ${unit}`;
  return (
    <section className="gauge-facts" aria-label={words.title}>
      <dl>
        <Fact name={words.kind}>{gauge.instrumentKind}</Fact>
        <Fact name={words.range}>
          {gauges.range(
            format.decimal(shortest(range.low.value, 0)),
            format.decimal(shortest(range.high.value, 0)),
            unit,
          )}
        </Fact>
        <Fact name={words.resolution}>{figure(gauge.resolution.value)}</Fact>
        <Fact name={words.mpe}>{`± ${figure(gauge.mpe.value)}`}</Fact>
        <Fact name={words.repeatability}>
          {repeatability === null ? (
            <span className="note">{words.noRepeatability}</span>
          ) : (
            `${figure(repeatability.value)} `
          )}
          {repeatabilityStudyId === null ? null : (
            <Link to="/gauge-studies/$studyId" params={{ studyId: repeatabilityStudyId }}>
              {words.fromStudy}
            </Link>
          )}
        </Fact>
        <Fact name={words.calibrated}>
          {calibratedOn === null ? words.notSaid : format.date(`${calibratedOn}T12:00:00Z`)}
        </Fact>
        <Fact name={words.due}>
          <CertificateState gauge={gauge} />
        </Fact>
        {isFeeler(gauge) ? (
          <Fact name={words.blades}>
            {gauge.blades.map(({ thickness }) => format.decimal(thickness.value)).join('  ')}
          </Fact>
        ) : null}
      </dl>
    </section>
  );
}

/** One gauge: what it is, today's check, its certificate, its studies. */
export function GaugeView() {
  const { gauges: words } = useWords();
  const { instrumentId } = useParams({ from: '/framed/gauges/$instrumentId' });
  const navigate = useNavigate();
  const bench = useMay('bench');
  const setUp = useMay('set up');
  const register = useQuery(gaugesQuery);
  const gauge = register.data?.items.find(({ id }) => id === instrumentId);
  if (register.isPending) return <Skeleton label={words.reading} lines={8} />;
  if (register.data === undefined) return <Failed error={register.error} again={() => void register.refetch()} />;
  if (gauge === undefined) return <Missing />;
  return (
    <main className="gauges gauge">
      <div className="gauges-head">
        <h1>
          <span className="num">{gauge.code}</span> {gauge.name}
        </h1>
        <Link to="/gauges">{words.title}</Link>
      </div>
      <div className="gauge-parts">
        <Facts gauge={gauge} />
        {bench && !isFeeler(gauge) ? <CheckForm key={`check ${gauge.id}`} gauge={gauge} /> : null}
        {isFeeler(gauge) ? null : <StudiesSection gauge={gauge} />}
        {setUp ? <CertificateForm key={`certificate ${gauge.id}`} gauge={gauge} /> : null}
        {setUp ? <RetireForm gauge={gauge} onRetired={() => void navigate({ to: '/gauges' })} /> : null}
      </div>
    </main>
  );
}

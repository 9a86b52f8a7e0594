import { useQuery } from '@tanstack/react-query';
import { Link } from '@tanstack/react-router';
import { useState } from 'react';
import type { InstrumentFacts } from '#contracts/instruments.ts';
import { shortest } from '#domain/units/format-quantity.ts';
import { useMay } from '../../app/session.tsx';
import { Failed } from '../../app/view-states.tsx';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { symbolOf } from '../../words/quantity-text.ts';
import { useWords } from '../../words/words.tsx';
import { AddGaugeDialog } from './add-gauge-dialog.tsx';
import { gaugesQuery, isFeeler } from './gauges-queries.ts';
import './gauges.css';

/** When a certificate runs out, in words; hot when it has. */
export function CertificateState({ gauge }: { readonly gauge: InstrumentFacts }) {
  const words = useWords().gauges;
  const format = useFormat();
  const { calibration, calibrationDueOn } = gauge;
  const day = calibrationDueOn === null ? '' : format.date(`${calibrationDueOn}T12:00:00Z`);
  return <span className={calibration === 'overdue' ? 'hot' : ''}>{words.calibration[calibration](day)}</span>;
}

function Today({ gauge }: { readonly gauge: InstrumentFacts }) {
  const words = useWords().gauges;
  const format = useFormat();
  const { lastCheck, checkedToday } = gauge;
  if (lastCheck === null) return <span className="note">{words.notChecked}</span>;
  if (!checkedToday) {
    return (
      <>
        {words.notChecked}
        <span className="note line">{words.lastChecked(format.since(lastCheck.checkedAt))}</span>
      </>
    );
  }
  return (
    <>
      <span className="num">{`${format.decimal(shortest(lastCheck.zeroError.value, 0))} ${symbolOf(lastCheck.zeroError.unit)}`}</span>
      <span className="note line">{`${lastCheck.checkedBy.name}, ${format.since(lastCheck.checkedAt)}`}</span>
    </>
  );
}

function GaugeRow({ gauge }: { readonly gauge: InstrumentFacts }) {
  const words = useWords().gauges;
  const format = useFormat();
  const { range, resolution, mpe, repeatability } = gauge;
  const unit = symbolOf(gauge.unit);
  const figure = (value: string) => format.decimal(shortest(value, 0));
  return (
    <li className="gauge-line">
      <div>
        <Link to="/gauges/$instrumentId" params={{ instrumentId: gauge.id }} className="line-link">
          <b className="num nowrap">{gauge.code}</b> {gauge.name}
        </Link>
        <span className="note line">{gauge.instrumentKind}</span>
      </div>
      <div className="num" data-head={words.heads.reads}>
        {words.range(figure(range.low.value), figure(range.high.value), unit)}
        <span className="note line">
          {isFeeler(gauge) ? words.blades(gauge.blades.length) : words.resolution(figure(resolution.value), unit)}
        </span>
      </div>
      <div className="num" data-head={words.heads.error}>
        {words.error(figure(mpe.value), unit)}
        {repeatability === null ? null : (
          <span className="note line">{words.scatter(figure(repeatability.value), unit)}</span>
        )}
      </div>
      <div data-head={words.heads.today}>
        <Today gauge={gauge} />
      </div>
      <div data-head={words.heads.certificate}>
        <CertificateState gauge={gauge} />
      </div>
    </li>
  );
}

/** The register: every gauge in use, what it reads, whether it was checked today and is in date. */
export function GaugesView() {
  const words = useWords().gauges;
  const maySetUp = useMay('set up');
  const register = useQuery(gaugesQuery);
  const [adding, setAdding] = useState(false);
  const items = register.data?.items ?? [];
  return (
    <main className="gauges">
      <div className="gauges-head">
        <h1>{words.title}</h1>
        <p className="note">{words.lead}</p>
        {maySetUp ? <Button onClick={() => setAdding(true)}>{words.add}</Button> : null}
      </div>
      {register.isPending ? <Skeleton label={words.reading} lines={8} /> : null}
      {register.isError && register.data === undefined ? (
        <Failed error={register.error} again={() => void register.refetch()} />
      ) : null}
      {register.isSuccess && items.length === 0 ? <Empty title={words.none}>{words.noneWhy}</Empty> : null}
      {items.length === 0 ? null : (
        <div className="gauge-heads" aria-hidden="true">
          {Object.values(words.heads).map((head) => (
            <span key={head}>{head}</span>
          ))}
        </div>
      )}
      <ul className="gauge-lines">
        {items.map((gauge) => (
          <GaugeRow key={gauge.id} gauge={gauge} />
        ))}
      </ul>
      {adding ? <AddGaugeDialog onClose={() => setAdding(false)} /> : null}
    </main>
  );
}

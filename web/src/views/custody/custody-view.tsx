import { useQuery } from '@tanstack/react-query';
import { Link, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import { useNow } from '../../app/now.tsx';
import { useMedia } from '../../app/use-media.ts';
import { Choice } from '../../kit/choice.tsx';
import { Field } from '../../kit/field.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { Empty } from '../../kit/state-panels.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { floorQuery } from '../bench/hands-queries.ts';
import { NotRead } from '../engine/not-read.tsx';
import { useWidth } from '../engine/use-width.ts';
import { BenchTimesSection } from './bench-times.tsx';
import { periodsQuery, whoHeldQuery } from './custody-queries.ts';
import { HeldTable } from './held-table.tsx';
import { HolderChart } from './holder-chart.tsx';
import { MomentPicker } from './moment-picker.tsx';
import './custody.css';

const HOUR = 3_600_000;
const spans = { shift: 12 * HOUR, day: 48 * HOUR, week: 9 * 24 * HOUR, month: 35 * 24 * HOUR } as const;
type SpanName = keyof typeof spans;
const spanNames = ['shift', 'day', 'week', 'month'] as const;

/** Holders over time around the moment. The scale moves in whole quarters of its length, so that it does not creep. */
function Over({ at, engineId }: { readonly at: string | null; readonly engineId: string | null }) {
  const words = useWords().custody;
  const now = useNow();
  const [name, setName] = useState<SpanName>('week');
  const [ref, width] = useWidth<HTMLDivElement>(900);
  const phone = useMedia('(max-width: 560px)');
  const moment = at === null ? now : Date.parse(at);
  const quarter = spans[name] / 4;
  const until = Math.ceil((moment + 1) / quarter) * quarter;
  const from = until - spans[name];
  const periods = useQuery(
    periodsQuery({ from: new Date(from).toISOString(), until: new Date(until).toISOString(), engineId }),
  );
  const shown = (periods.data?.items ?? []).map((period) =>
    period.until === null && until > now ? { ...period, until: new Date(Math.min(now, until)).toISOString() } : period,
  );
  return (
    <section aria-label={words.over} className="over-time">
      <h2>{words.over}</h2>
      <p className="note">{words.overLead}</p>
      <Choice
        label={words.span}
        value={name}
        onChange={setName}
        options={spanNames.map((value) => ({ value, label: words.spans[value] }))}
      />
      <div ref={ref} className="over-drawing">
        {periods.data === undefined ? (
          <Skeleton label={words.reading} lines={8} />
        ) : shown.length === 0 ? (
          <p>{words.none}</p>
        ) : (
          <HolderChart
            periods={shown}
            from={from}
            until={until}
            moment={moment}
            width={Math.max(phone ? 340 : 480, width)}
          />
        )}
      </div>
    </section>
  );
}

/** Any moment of the past: who held each engine and tray, where, since when and by which act. */
export function CustodyView() {
  const words = useWords().custody;
  const format = useFormat();
  const search: { engineId?: string } = useSearch({ strict: false });
  const [at, setAt] = useState<string | null>(null);
  const [engineId, setEngine] = useState<string | null>(search.engineId ?? null);
  const held = useQuery(whoHeldQuery({ at, engineId }));
  const floor = useQuery(floorQuery);
  const engines = floor.data?.engines ?? [];
  const engine = engines.find(({ id }) => id === engineId);
  return (
    <main className="custody">
      <title>{words.title}</title>
      <header className="custody-head">
        <h1>{words.title}</h1>
        <p className="note">{words.lead}</p>
        <Link className="btn no-print" to="/shift-end">
          {words.shift.open}
        </Link>
      </header>
      {held.data === undefined ? (
        held.error === null ? (
          <Skeleton label={words.reading} lines={9} />
        ) : (
          <NotRead error={held.error} again={() => void held.refetch()} right="look" />
        )
      ) : (
        <>
          <div className="asked">
            <Field label={words.whose}>
              {(input) => (
                <select {...input} value={engineId ?? ''} onChange={({ target }) => setEngine(target.value || null)}>
                  <option value="">{words.all}</option>
                  {engines.map(({ id, serial, family }) => (
                    <option key={id} value={id}>
                      {words.engine(`${family.name} ${serial}`)}
                    </option>
                  ))}
                </select>
              )}
            </Field>
            <MomentPicker held={held.data} at={at} onChange={setAt} />
          </div>
          <section aria-label={words.momentIs(format.dateTime(held.data.at))}>
            <div role="status">
              <h2>
                {words.momentIs(format.dateTime(held.data.at))}
                <span className="note num"> {words.held(held.data.items.length)}</span>
              </h2>
            </div>
            {held.data.more ? <p className="hot">{words.more}</p> : null}
            {held.data.items.length === 0 ? (
              <Empty title={words.nothing}>{words.nothingWhy}</Empty>
            ) : (
              <HeldTable items={held.data.items} />
            )}
          </section>
          <Over at={at} engineId={engineId} />
          {engine === undefined ? null : <BenchTimesSection jobId={engine.job.id} />}
        </>
      )}
    </main>
  );
}

import { useQuery } from '@tanstack/react-query';
import { Link, useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { CountSchedule, CountSheet, DueBin } from '#contracts/counts.ts';
import { Refusal } from '../../../app/refusal.tsx';
import { useMay } from '../../../app/session.tsx';
import { Failed } from '../../../app/view-states.tsx';
import { useWrite } from '../../../app/write.ts';
import { Button } from '../../../kit/button.tsx';
import { Skeleton } from '../../../kit/skeleton.tsx';
import { useScan } from '../../../scan/registry.ts';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { Desks } from '../desks.tsx';
import { Scrolled } from '../scrolled.tsx';
import { FileLink } from '../store-files.tsx';
import { Accuracy } from './accuracy.tsx';
import { Classes } from './classes.tsx';
import { scheduleQuery } from './count-queries.ts';
import { CountRules } from './count-rules.tsx';
import { EndedSheets, OpenSheets } from './sheet-list.tsx';
import '../stores.css';
import '../desks.css';
import './count.css';

/** The counting desk: which bins to count next and why, the sheets, and how right the books were. */
export function CountsView() {
  const words = useWords().counts;
  const schedule = useQuery(scheduleQuery);
  return (
    <main className="stores one-sheet">
      <div className="p">
        <Desks />
        <div className="hd">
          <h1>{words.title}</h1>
          <div className="kit-acts">
            <FileLink name="schedule" />
            {useMay('money') ? (
              <a className="btn" href="/api/counts.csv" download="counts.csv">
                {words.desk.file}
              </a>
            ) : null}
          </div>
        </div>
        {schedule.isPending ? <Skeleton label={words.reading} lines={8} /> : null}
        {schedule.isError ? <Failed error={schedule.error} again={() => void schedule.refetch()} /> : null}
        <OpenSheets />
        {schedule.data === undefined ? null : <NextToCount schedule={schedule.data} />}
        <EndedSheets />
        <Accuracy />
        {schedule.data === undefined ? null : (
          <>
            <CountRules rules={schedule.data.rules} />
            <Classes schedule={schedule.data} />
          </>
        )}
      </div>
    </main>
  );
}

/** What fits on a screen; the rest is asked for. */
const shownFirst = 12;

function NextToCount({ schedule }: { readonly schedule: CountSchedule }) {
  const { desk: words, scan } = useWords().counts;
  const format = useFormat();
  const navigate = useNavigate();
  const may = useMay('stores');
  const [ticked, setTicked] = useState<ReadonlySet<string>>(new Set());
  const [all, setAll] = useState(false);
  const shown = all ? schedule.bins : schedule.bins.slice(0, shownFirst);
  const writing = useWrite<CountSheet>();
  const open = (sheetId: string) => void navigate({ to: '/stores/count/$sheetId', params: { sheetId } });
  const begin = (binIds: readonly string[]) =>
    writing.write({ path: '/count-sheets', body: { binIds } }, ({ id }) => open(id));
  useScan((scanned) => {
    if (scanned.kind !== 'bin') return undefined;
    const sheet = schedule.bins.find(({ bin }) => bin.id === scanned.id)?.sheet ?? null;
    if (sheet !== null) {
      open(sheet.id);
      return { did: scan.sheetOpened };
    }
    if (!may) return undefined;
    begin([scanned.id]);
    return { did: scan.begun };
  });
  const toggle = (id: string) =>
    setTicked(ticked.has(id) ? new Set([...ticked].filter((one) => one !== id)) : new Set([...ticked, id]));
  return (
    <section className="next-count">
      <h2>{words.next}</h2>
      <p>
        <b>{words.due(schedule.due, schedule.total)}.</b>{' '}
        {words.perDay(format.number(schedule.perDay, schedule.perDay < 1 ? 2 : 1))} {may ? words.note : ''}
      </p>
      {schedule.bins.length === 0 ? <p className="nothing">{words.none}</p> : null}
      {schedule.bins.length === 0 ? null : (
        <Scrolled label={words.next}>
          <DueTable bins={shown} ticked={ticked} onToggle={may ? toggle : undefined} />
        </Scrolled>
      )}
      {schedule.total > shown.length ? <p className="note">{words.more(schedule.total - shown.length)}</p> : null}
      {may ? (
        <div className="kit-acts">
          {shown.length < schedule.bins.length ? (
            <Button big onClick={() => setAll(true)}>
              {words.all(schedule.bins.length)}
            </Button>
          ) : null}
          <Button kind="main" big disabled={ticked.size === 0 || writing.busy} onClick={() => begin([...ticked])}>
            {words.begin(ticked.size)}
          </Button>
        </div>
      ) : null}
      <Refusal error={writing.error} />
    </section>
  );
}

interface DueTableProps {
  readonly bins: readonly DueBin[];
  readonly ticked: ReadonlySet<string>;
  readonly onToggle: ((id: string) => void) | undefined;
}

function DueTable({ bins, ticked, onToggle }: DueTableProps) {
  const { desk: words } = useWords().counts;
  return (
    <table>
      <thead>
        <tr>
          {onToggle === undefined ? null : <th>{words.tick}</th>}
          <th>{words.bin}</th>
          <th>{words.class}</th>
          <th>{words.dueOn}</th>
          <th>{words.counted}</th>
          <th>{words.why}</th>
        </tr>
      </thead>
      <tbody>
        {bins.map((of) => (
          <DueRow key={of.bin.id} of={of} ticked={ticked.has(of.bin.id)} onToggle={onToggle} />
        ))}
      </tbody>
    </table>
  );
}

interface DueRowProps {
  readonly of: DueBin;
  readonly ticked: boolean;
  readonly onToggle: ((id: string) => void) | undefined;
}

function DueRow({ of, ticked, onToggle }: DueRowProps) {
  const { desk: words } = useWords().counts;
  const format = useFormat();
  const { bin, sheet, because, everyDays, state, dueOn } = of;
  const due = {
    never: words.now,
    due: words.today,
    overdue: words.overdue(dueOn === null ? '' : format.day(dueOn)),
    later: dueOn === null ? '' : format.day(dueOn),
  }[state];
  return (
    <tr>
      {onToggle === undefined ? null : (
        <td>
          {sheet === null ? (
            <label className="tick">
              <input
                type="checkbox"
                aria-label={words.tickOf(bin.code)}
                checked={ticked}
                onChange={() => onToggle(bin.id)}
              />
            </label>
          ) : null}
        </td>
      )}
      <td>
        <b className="num nowrap">{bin.code}</b>{' '}
        {sheet === null ? null : (
          <Link to="/stores/count/$sheetId" params={{ sheetId: sheet.id }}>
            {words.onSheet(sheet.number, sheet.counter)}
          </Link>
        )}
      </td>
      <td>
        <b>{of.class}</b>
      </td>
      <td className={state === 'later' ? '' : 'hot'}>{due}</td>
      <td>{of.countedOn === null ? words.never : format.day(of.countedOn)}</td>
      <td>
        {because === null
          ? `${of.lots === 0 ? `${words.empty}, ` : ''}${words.everyDays(everyDays)}`
          : words.because(because.name, everyDays)}
      </td>
    </tr>
  );
}

import { useQuery } from '@tanstack/react-query';
import { Link, useParams } from '@tanstack/react-router';
import { Button } from '../../kit/button.tsx';
import { Skeleton } from '../../kit/skeleton.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { NotRead } from '../engine/not-read.tsx';
import { shiftReportQuery } from './custody-queries.ts';
import { EverythingHeld, SnapshotSections } from './snapshot-sections.tsx';
import './custody.css';

/** A signed end of a shift, as it was found then. */
export function ReportView() {
  const { shift: words } = useWords().custody;
  const format = useFormat();
  const { reportId } = useParams({ from: '/framed/shift-reports/$reportId' });
  const { data: report, error, refetch } = useQuery(shiftReportQuery(reportId));
  return (
    <main className="custody shift">
      <title>{words.title}</title>
      <header className="custody-head">
        <h1>{words.title}</h1>
        {report === undefined ? null : <p className="note num">{words.asOf(format.dateTime(report.asOf))}</p>}
        <Link className="btn no-print" to="/shift-end">
          {words.open}
        </Link>
        <Button onClick={() => window.print()}>{words.print}</Button>
      </header>
      {report === undefined ? (
        error === null ? (
          <Skeleton label={words.reading} lines={9} />
        ) : (
          <NotRead error={error} again={() => void refetch()} right="look" />
        )
      ) : (
        <>
          <div className="outcome" role="status">
            <p>
              <b>{words.signedBy(report.signedBy.name, format.dateTime(report.signedAt))}</b>
            </p>
            {report.note === '' ? null : <p>{report.note}</p>}
          </div>
          <SnapshotSections snapshot={report.snapshot} />
          <EverythingHeld items={report.snapshot.items} />
        </>
      )}
    </main>
  );
}

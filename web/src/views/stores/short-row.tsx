import { Link } from '@tanstack/react-router';
import type { ShortLine } from '#contracts/stores-desks.ts';
import { useMay } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import type { OrderFor } from './order-dialog.tsx';

interface RowProps {
  readonly line: ShortLine;
  readonly by: 'job' | 'part';
  readonly onOrder: (order: OrderFor) => void;
}

/** One shortage: how many, since when, what on order fills it and when. */
export function ShortRow({ line, by, onOrder }: RowProps) {
  const { short: words } = useWords().storesDesks;
  const format = useFormat();
  const may = useMay('stores');
  const { part, buyAs, job, short, since, uncovered, onOrder: coming, expectedOn, late, jobDueOn } = line;
  const afterDue = expectedOn !== null && jobDueOn !== null && expectedOn > jobDueOn;
  return (
    <li className="short-row">
      <div className="short-what">
        {by === 'job' ? (
          <>
            <b>{part.name}</b> <span className="num note">{part.number}</span>
          </>
        ) : (
          <>
            <b>{words.jobHead(job.number, job.family, job.serial)}</b>
            <p className="note">{jobDueOn === null ? words.noPromise : words.due(format.day(jobDueOn))}</p>
          </>
        )}
        <p className="note">
          {line.rule === '' ? null : <b>{line.rule} </b>}
          {words.missing(short)} {words.since(format.since(since))}
        </p>
      </div>
      <ul className="short-coming">
        {coming.map((one) => (
          <li key={one.lineId}>
            {words.ordered(one.quantity, one.vendor.name)}
            {one.instead === null ? null : words.as(one.instead.number)}
            {one.orderId === null ? null : (
              <>
                {', '}
                <Link to="/stores/orders/$orderId" params={{ orderId: one.orderId }}>
                  {words.orderNumber(one.orderNumber ?? 0)}
                </Link>
              </>
            )}
            <span className={one.late ? 'hot' : 'note'}>
              {' '}
              {one.promisedOn === null
                ? words.noDay
                : one.late
                  ? words.lateLine(format.day(one.promisedOn))
                  : words.expected(format.day(one.promisedOn))}
            </span>
            {one.slips === 0 ? null : <p className="note">{words.slips(one.slips, one.said)}</p>}
          </li>
        ))}
        {uncovered === 0 ? null : (
          <li>
            <b className="hot">{words.uncovered(uncovered)}</b>
            {buyAs.id === part.id ? null : <p className="note">{words.boughtAs(buyAs.number)}</p>}
          </li>
        )}
      </ul>
      <div className="short-when">
        {late ? <span className="short-late">{words.isLate}</span> : null}
        {expectedOn === null ? null : <b className="num">{format.day(expectedOn)}</b>}
        {afterDue ? <p className="hot">{words.afterDue}</p> : null}
      </div>
      {may && uncovered > 0 ? (
        <Button
          kind="main"
          aria-label={words.orderOf(part.name)}
          onClick={() => onOrder({ part: buyAs, quantity: uncovered, jobId: job.id, words: line.rule })}
        >
          {words.order}
        </Button>
      ) : null}
    </li>
  );
}

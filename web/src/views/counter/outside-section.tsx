import { useQuery } from '@tanstack/react-query';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { outsideQuery } from './counter-queries.ts';

/** What of the job is at a vendor, for what, and when it is due. */
export function OutsideSection({ jobId, today }: { readonly jobId: string; readonly today: string }) {
  const { outside: words } = useWords().counter;
  const format = useFormat();
  const works = useQuery(outsideQuery(jobId)).data?.items;
  return (
    <section className="panel" id="outside">
      <h2>{words.title}</h2>
      {works?.length === 0 ? <p className="note">{words.none}</p> : null}
      <ul className="outside">
        {works?.map(({ id, subject, vendor, work, dueOn, backAt, sentAt, sentBy }) => (
          <li key={id}>
            <b>{work}</b>
            {backAt !== null ? (
              <span className="note num">{words.back(format.since(backAt))}</span>
            ) : dueOn === null ? (
              <span className="hot">{words.noDate}</span>
            ) : (
              <span className={dueOn < today ? 'hot num' : 'quiet num'}>
                {(dueOn < today ? words.wasDue : words.due)(format.day(dueOn))}
              </span>
            )}
            <p className="note">
              {subject.name}, {vendor.name}. {words.sent(format.since(sentAt), sentBy.name)}
            </p>
          </li>
        ))}
      </ul>
    </section>
  );
}

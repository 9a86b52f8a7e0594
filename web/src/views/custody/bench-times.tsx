import { useQuery } from '@tanstack/react-query';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { benchTimesQuery } from './custody-queries.ts';

/** Time on each bench and waiting between benches, stay after stay. */
export function BenchTimesSection({ jobId }: { readonly jobId: string }) {
  const words = useWords().custody;
  const format = useFormat();
  const times = useQuery(benchTimesQuery(jobId)).data;
  if (times === undefined) return null;
  return (
    <section aria-label={words.times}>
      <h2>{words.times}</h2>
      <p className="note">{words.timesLead}</p>
      <table className="bench-times">
        <thead>
          <tr>
            <th scope="col">{words.place}</th>
            <th scope="col">{words.columns.since}</th>
            <th scope="col" className="n">
              {words.worked}
            </th>
            <th scope="col" className="n">
              {words.waited}
            </th>
          </tr>
        </thead>
        <tbody>
          {times.stays.map((stay) => (
            <tr key={stay.from}>
              <th scope="row">{stay.place.name}</th>
              <td className="num">{format.since(stay.from)}</td>
              <td className="n num">
                {stay.kind === 'bay' ? words.minutes(stay.workedMinutes) : words.kind[stay.kind]}
              </td>
              <td className="n num">{stay.kind === 'bay' ? words.minutes(stay.waitedMinutes) : ''}</td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" colSpan={2}>
              {words.total}
            </th>
            <td className="n num">{words.minutes(times.workedMinutes)}</td>
            <td className="n num">{words.minutes(times.waitedMinutes)}</td>
          </tr>
        </tfoot>
      </table>
      <p className="note">
        {times.outsideMinutes === 0 ? '' : words.outside(words.minutes(times.outsideMinutes))}{' '}
        {times.offeredMinutes === 0 ? '' : words.offered(words.minutes(times.offeredMinutes))}
      </p>
    </section>
  );
}

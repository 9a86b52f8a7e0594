import { useQuery } from '@tanstack/react-query';
import type { CountAccuracy } from '#contracts/counts.ts';
import { useMay } from '../../../app/session.tsx';
import { CountAccuracyDrawing } from '../../../drawings/count-accuracy.tsx';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { Scrolled } from '../scrolled.tsx';
import { accuracyQuery } from './count-queries.ts';

/** Month by month: how many lines were right, how many within tolerance, and what was adjusted. */
export function Accuracy() {
  const { accuracy: words } = useWords().counts;
  const months = useQuery(accuracyQuery).data?.months;
  const last = months?.at(-1);
  return (
    <section>
      <h2>{words.title}</h2>
      {months?.length === 0 ? <p className="nothing">{words.none}</p> : null}
      {months === undefined || last === undefined ? null : (
        <div className="accuracy">
          <CountAccuracyDrawing label={words.drawing(String(last.right), last.lines)} months={months} />
          <Scrolled label={words.title}>
            <Months months={months} />
          </Scrolled>
        </div>
      )}
    </section>
  );
}

function Months({ months }: { readonly months: CountAccuracy['months'] }) {
  const { accuracy: words } = useWords().counts;
  const format = useFormat();
  const money = useMay('money');
  const share = (part: number, of: number) => `${part} (${format.number((100 * part) / of)} %)`;
  return (
    <table>
      <thead>
        <tr>
          <th>{words.month}</th>
          <th className="n">{words.lines}</th>
          <th className="n">{words.right}</th>
          <th className="n">{words.within}</th>
          {money ? <th className="n">{words.up}</th> : null}
          {money ? <th className="n">{words.down}</th> : null}
        </tr>
      </thead>
      <tbody>
        {months.toReversed().map(({ month, lines, right, within, up, down }) => (
          <tr key={month}>
            <td className="num">{month}</td>
            <td className="n">{lines}</td>
            <td className="n">{share(right, lines)}</td>
            <td className="n">{share(within, lines)}</td>
            {money ? <td className="n">{up === null ? '' : format.money(up)}</td> : null}
            {money ? <td className="n">{down === null ? '' : format.money(down)}</td> : null}
          </tr>
        ))}
      </tbody>
    </table>
  );
}

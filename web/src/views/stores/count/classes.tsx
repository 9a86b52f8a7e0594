import type { CountSchedule } from '#contracts/counts.ts';
import { useMay } from '../../../app/session.tsx';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { FirstOf } from '../first-of.tsx';
import { Scrolled } from '../scrolled.tsx';

/** The computation of the classes, part by part. */
export function Classes({ schedule }: { readonly schedule: CountSchedule }) {
  const { classes: words } = useWords().counts;
  return (
    <details className="classes">
      <summary>{words.title}</summary>
      <p>{words.how}</p>
      <ul className="plain">
        {schedule.classes.map(({ class: of, bins, parts }) => (
          <li key={of}>{words.bins(of, bins, parts)}</li>
        ))}
      </ul>
      {schedule.parts.length === 0 ? (
        <p className="nothing">{words.none}</p>
      ) : (
        <Scrolled label={words.title}>
          <Parts parts={schedule.parts} />
        </Scrolled>
      )}
      <FirstOf shown={schedule.parts.length} of={schedule.classes.reduce((sum, { parts }) => sum + parts, 0)}>
        {words.mostUsed}
      </FirstOf>
    </details>
  );
}

function Parts({ parts }: { readonly parts: CountSchedule['parts'] }) {
  const { classes: words } = useWords().counts;
  const format = useFormat();
  const money = useMay('money');
  const percent = (share: number) => `${format.number(share * 100, 1)} %`;
  return (
    <table>
      <thead>
        <tr>
          <th>{words.part}</th>
          {money ? <th className="n">{words.used}</th> : null}
          <th className="n">{words.share}</th>
          <th className="n">{words.before}</th>
          <th>{words.byValue}</th>
          <th className="n">{words.moved}</th>
          <th>{words.byMovement}</th>
          <th>{words.class}</th>
        </tr>
      </thead>
      <tbody>
        {parts.map((of) => (
          <tr key={of.part.id}>
            <td>
              {of.part.name} <span className="note num">{of.part.number}</span>
            </td>
            {money ? <td className="n">{of.used === null ? '' : format.money(of.used)}</td> : null}
            <td className="n">{percent(of.share)}</td>
            <td className="n">{percent(of.before)}</td>
            <td>{of.byValue}</td>
            <td className="n">{of.movements}</td>
            <td>{of.byMovement}</td>
            <td>
              <b>{of.class}</b>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

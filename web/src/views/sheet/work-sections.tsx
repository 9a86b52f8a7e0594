import type { BuildSheet } from '#contracts/hand-back.ts';
import { RingClock } from '../../drawings/ring-clock.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { KeptFigures, useKindName } from '../loose-bench/kept-figures.tsx';

type Part = { readonly sheet: BuildSheet };

export function PartsFitted({ sheet }: Part) {
  const { sheet: words } = useWords();
  return (
    <section>
      <h2>{words.parts}</h2>
      {sheet.parts.length === 0 ? <p>{words.noParts}</p> : null}
      <table>
        <tbody>
          {sheet.parts.map(({ number, name, quantity }) => (
            <tr key={number}>
              <td>
                {name} <span className="unit">{number}</span>
              </td>
              <td className="n">{quantity}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

export function OutsideDone({ sheet }: Part) {
  const { sheet: words } = useWords();
  const format = useFormat();
  if (sheet.outside.length === 0) return null;
  return (
    <section>
      <h2>{words.outside}</h2>
      <ul>
        {sheet.outside.map(({ vendor, work, sentAt, backAt }) => (
          <li key={`${work} ${sentAt}`}>
            {words.outsideLine(work, vendor)}{' '}
            <span className="unit">
              {words.outsideDates(format.date(sentAt), backAt === null ? null : format.date(backAt))}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function TorqueDone({ sheet }: Part) {
  const { sheet: words } = useWords();
  if (sheet.torque.length === 0) return null;
  return (
    <section>
      <h2>{words.torque}</h2>
      <table>
        <tbody>
          {sheet.torque.map(({ name, stages, pulls, complete, by, condition, wrenches }) => (
            <tr key={name}>
              <td>
                {name} <span className="unit">{[condition, ...wrenches, ...by].join(', ')}</span>
              </td>
              <td className="num">{stages.join(', ')}</td>
              <td className={complete ? 'n' : 'n hot'}>{(complete ? words.torqueDone : words.torqueOpen)(pulls)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** Ring gaps on a small clock, each with its angle; shims by valve. */
export function RingsAndShims({ sheet }: Part) {
  const { sheet: words } = useWords();
  const format = useFormat();
  const { rings, shims } = sheet;
  if (rings.length === 0 && shims.length === 0) return null;
  const gaps = rings.map(({ name, angle, faults }, index) => ({
    mark: String(index + 1),
    name,
    angle: angle === null ? null : Number(angle),
    allowed: faults.length === 0,
  }));
  return (
    <section className="rings-shims">
      {rings.length === 0 ? null : (
        <div>
          <h2>{words.rings}</h2>
          <div className="clock">
            <RingClock gaps={gaps} size={150} />
            <ol>
              {rings.map(({ name, angle, mark, faces, faults }) => (
                <li key={name} className={faults.length === 0 ? '' : 'hot'}>
                  {angle === null ? words.ringNot(name) : words.ringAt(name, format.decimal(angle))}
                  {angle === null ? '' : words.ringFaces(mark, faces)}
                  {faults.length === 0 ? '' : `: ${faults.join(', ')}`}
                </li>
              ))}
              {sheet.ringsPlaced === null ? null : <li className="unit">{words.ringsBy(sheet.ringsPlaced)}</li>}
            </ol>
          </div>
        </div>
      )}
      {shims.length === 0 ? null : (
        <div>
          <h2>{words.shims}</h2>
          <ul>
            {shims.map(({ valve, thickness, from }) => (
              <li key={valve}>
                {words.shim(valve, format.decimal(thickness))} <span className="unit">{from}</span>
              </li>
            ))}
          </ul>
        </div>
      )}
    </section>
  );
}

/** What was reckoned at the loose bench and kept with the job, with the cautions that stood at it. */
export function WorkedOut({ sheet }: Part) {
  const { sheet: words } = useWords();
  const named = useKindName();
  if (sheet.worked.length === 0) return null;
  const cautions = [...new Set(sheet.worked.flatMap((one) => one.cautions.map((caution) => caution.words)))];
  return (
    <section>
      <h2>{words.worked}</h2>
      <ul>
        {sheet.worked.map((one) => (
          <li key={one.id}>
            <b>{named(one.kind)}</b>
            {one.note === '' ? '' : `: ${one.note}`} <span className="unit">{one.by.name}</span>
            <KeptFigures {...one} />
          </li>
        ))}
      </ul>
      <p className="unit">{cautions.join(' ')}</p>
    </section>
  );
}

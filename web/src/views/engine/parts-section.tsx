import type { EnginePage } from '#contracts/engines.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type FittedPart = EnginePage['fittedParts'][number];

/** As the maker built it: nothing is known of it that its place doesn't tell. */
const isAsBuilt = ({ fittedJobNumber, sizeClass, grade, mark }: FittedPart): boolean =>
  fittedJobNumber === null && sizeClass === 'standard' && grade === '' && mark === '';

function PartsTable({ parts }: { readonly parts: readonly FittedPart[] }) {
  const words = useWords().engine;
  const format = useFormat();
  return (
    <div className="table-room">
      <table>
        <thead>
          <tr>
            <th>{words.part}</th>
            <th>{words.size}</th>
            <th>{words.fitted}</th>
          </tr>
        </thead>
        <tbody>
          {parts.map((part) => (
            <tr key={part.id}>
              <td>
                {part.name}
                {part.mark === '' ? null : <span className="note line">{part.mark}</span>}
              </td>
              <td className="num">{[part.sizeClass, part.grade].filter((text) => text !== '').join(', ') || '–'}</td>
              <td className="note">
                {part.fittedJobNumber === null
                  ? words.cameWithIt
                  : words.fittedOn(part.fittedJobNumber, format.decimal(part.fittedHours))}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

/** What is fitted now, its size class and mark, and since which visit; what is as the maker built it only by name. */
export function PartsSection({ parts }: { readonly parts: EnginePage['fittedParts'] }) {
  const words = useWords().engine;
  const asBuilt = parts.filter(isAsBuilt);
  const others = parts.filter((part) => !isAsBuilt(part));
  return (
    <section className="page-part" aria-labelledby="fitted">
      <h2 id="fitted">{words.fittedParts}</h2>
      {parts.length === 0 ? <p className="note">{words.noFittedParts}</p> : null}
      {others.length === 0 ? null : <PartsTable parts={others} />}
      {asBuilt.length === 0 ? null : (
        <p className="as-built">
          <span className="note line">{words.cameStandard}</span>
          {asBuilt.map(({ name }) => name).join(', ')}
        </p>
      )}
    </section>
  );
}

/** The procedures of this visit, and how far each has come. */
export function RunsSection({ runs }: { readonly runs: EnginePage['runs'] }) {
  const words = useWords().engine;
  const format = useFormat();
  if (runs.length === 0) return null;
  return (
    <section className="page-part" aria-labelledby="runs">
      <h2 id="runs">{words.runs}</h2>
      <ul className="plain-lines">
        {runs.map(({ id, name, steps, done, startedBy, startedAt }) => (
          <li key={id}>
            <div>
              {name}
              <span className="note line">{words.judgedBy(startedBy.name, format.since(startedAt))}</span>
            </div>
            <div>
              <span className="num">{words.runOf(done, steps)}</span>
              <progress max={Math.max(steps, 1)} value={done} aria-label={name} />
            </div>
          </li>
        ))}
      </ul>
    </section>
  );
}

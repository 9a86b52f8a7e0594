import type { BuildSheet } from '#contracts/hand-back.ts';
import { dispositionOf } from '../../words/en/dispositions.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

type Part = { readonly sheet: BuildSheet };

export function Decisions({ sheet }: Part) {
  const { sheet: words } = useWords();
  if (sheet.decisions.length === 0) return null;
  const columns = words.decisionColumns;
  return (
    <section className="decisions">
      <h2>{words.decisions}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the table scrolls, so a keyboard has to reach it */}
      <section className="sheet-scroll" aria-label={words.decisions} tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th>{columns.what}</th>
              <th>{columns.decided}</th>
              <th>{columns.reason}</th>
              <th>{columns.by}</th>
              <th>{columns.end}</th>
            </tr>
          </thead>
          <tbody>
            {sheet.decisions.map(({ obligation, kind, reason, by, discharged }) => (
              <tr key={obligation}>
                <td>{obligation}</td>
                <td>{kind === '' ? <b className="hot">{words.undecided}</b> : <b>{dispositionOf(kind)}</b>}</td>
                <td>{reason}</td>
                <td>{by}</td>
                <td className={discharged === 'open' ? 'hot' : ''}>{discharged}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </section>
  );
}

export function ProofsMade({ sheet }: Part) {
  const { sheet: words } = useWords();
  const format = useFormat();
  if (sheet.proofs.length === 0) return null;
  return (
    <section>
      <h2>{words.proofs}</h2>
      <table>
        <tbody>
          {sheet.proofs.map(({ name, passed, words: found, by, at, signedBy }) => (
            <tr key={`${name} ${at}`}>
              <td>
                {name} <b className={passed ? '' : 'hot'}>{passed ? words.passed : words.failed}</b>
                <br />
                <span className="unit">{found}</span>
              </td>
              <td>
                {by} <span className="unit">{format.date(at)}</span>
                <br />
                <span className={signedBy === null ? 'hot' : ''}>
                  {signedBy === null ? words.unsigned : words.signed(signedBy)}
                </span>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

export function Openings({ sheet }: Part) {
  const { sheet: words } = useWords();
  const format = useFormat();
  const { openings, handovers } = sheet;
  return (
    <section>
      {openings.length === 0 ? null : <h2>{words.openings}</h2>}
      <ul>
        {openings.map(({ openedAt, closedAt, closedBy, pieces, signedBy, overridden, leftInBoxes }) => (
          <li key={openedAt}>
            {words.openingLine(format.date(openedAt), closedAt === null ? null : format.date(closedAt))},{' '}
            {/* Unless a lead let it pass, an engine closes only when every piece is accounted for. */}
            {pieces === null
              ? words.piecesHidden
              : closedAt === null || overridden || leftInBoxes
                ? words.piecesOpen(pieces)
                : words.pieces(pieces)}
            {overridden ? <b>, {words.closedOver}</b> : null}
            {closedBy === null ? '' : `, ${(leftInBoxes ? words.leftInBoxes : words.closedBy)(closedBy)}`}
            {signedBy === null || signedBy === closedBy ? '' : `, ${words.signed(signedBy)}`}
          </li>
        ))}
        {handovers.accepted + handovers.withDifference === 0 ? null : (
          <li>{words.handovers(handovers.accepted, handovers.withDifference)}</li>
        )}
      </ul>
    </section>
  );
}

/** What a lead let pass, although something spoke against it. */
/** What was looked for inside, and how that ended: found, or not inside by a lead's name. */
export function SearchesEnded({ sheet }: Part) {
  const { sheet: words } = useWords();
  const format = useFormat();
  if (sheet.searches.length === 0) return null;
  return (
    <section className="overrides">
      <h2>{words.searches}</h2>
      <ul>
        {sheet.searches.map(({ what, outcome, by, at, reason, steps }) => (
          <li key={`${what} ${at}`}>
            <b>{words.searched(what, outcome, by)}</b> {reason}{' '}
            <span className="unit">{words.searchedSteps(steps, format.date(at))}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function Overrides({ sheet }: Part) {
  const { sheet: words } = useWords();
  if (sheet.overrides.length === 0) return null;
  return (
    <section className="overrides">
      <h2>{words.overrides}</h2>
      <ul>
        {sheet.overrides.map(({ gate, words: why, by, reasons }) => (
          <li key={`${gate} ${why}`}>
            <b>{words.override(gate, by)}</b> {why}
            {reasons.length === 0 ? null : <span className="unit"> {words.overridden(reasons.join(' '))}</span>}
          </li>
        ))}
      </ul>
    </section>
  );
}

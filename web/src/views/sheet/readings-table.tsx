import type { BuildSheet } from '#contracts/hand-back.ts';
import { LimitStrip } from '../../drawings/limit-strip.tsx';
import { Verdict } from '../../drawings/verdict.tsx';
import { VerdictSign } from '../../drawings/verdict-sign.tsx';
import { englishWords } from '../../drawings/words.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { initialsOf } from './people.ts';
import {
  earlierOf,
  type Round,
  readingOf,
  roundsIn,
  type SheetFinding,
  type SheetRow,
  sheetRows,
  verdictOf,
} from './sheet-readings.ts';

/** Every finding: a strip a dimension, its figure in each round, the verdict on what went out. */
export function ReadingsTable({ sheet }: { readonly sheet: BuildSheet }) {
  const { sheet: words } = useWords();
  const rows = sheetRows(sheet.findings);
  const rounds = roundsIn(rows);
  if (rows.length === 0) return <p>{words.noReadings}</p>;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: on a phone the table scrolls, so a keyboard has to reach it
    <section className="sheet-scroll" aria-label={words.readings} tabIndex={0}>
      <table className="readings">
        <thead>
          <tr>
            <th className="c-name">{words.columns.dimension}</th>
            <th className="c-strip">{words.columns.strip}</th>
            {rounds.map((round) => (
              <th key={round} className="n">
                {words.rounds[round]}
              </th>
            ))}
            <th className="c-verdict">{words.columns.verdict}</th>
            <th className="c-who">{words.columns.instruments}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <ReadingRow key={row.key} row={row} rounds={rounds} people={sheet.people} />
          ))}
        </tbody>
      </table>
    </section>
  );
}

interface RowProps {
  readonly row: SheetRow;
  readonly rounds: readonly Round[];
  readonly people: BuildSheet['people'];
}

function ReadingRow({ row, rounds, people }: RowProps) {
  const { name, findings, newest } = row;
  const format = useFormat();
  const doers = [...new Set([...findings.values()].map(({ by }) => initialsOf(by.name, people)))];
  const { sheet: words } = useWords();
  const revisions = [...new Set([...findings.values()].map(({ revision }) => revision))].toSorted((a, b) => a - b);
  const disagreed = [...new Set([...findings.values()].flatMap((finding) => finding.disagreed))];
  return (
    <tr>
      <td>
        {name} {newest.unit === 'mm' ? null : <span className="unit">{newest.unit}</span>}
        {disagreed.map((told) => (
          <span key={told} className="small disagreed">
            {format.decimal(told)}
          </span>
        ))}
      </td>
      <td className="strip-cell">
        <RowStrip row={row} />
      </td>
      {rounds.map((round) => (
        <td key={round} className="n">
          <Figure finding={findings.get(round)} last={findings.get(round) === newest} />
        </td>
      ))}
      <td>
        <Verdict verdict={verdictOf(newest)} signWidth={20} />
      </td>
      <td className="small">
        {newest.instruments.join(', ')} <b>{doers.join(', ')}</b>{' '}
        <span className="nowrap">{words.judgedBy(revisions)}</span>
      </td>
    </tr>
  );
}

function RowStrip({ row }: { readonly row: SheetRow }) {
  const { sheet: words } = useWords();
  const format = useFormat();
  const { figure, unit } = row.newest;
  const reading = readingOf(row.newest);
  if (reading === null) return null;
  const spans = figure.type === 'span';
  return (
    <LimitStrip
      label={row.name}
      standard={[figure.standardLow, figure.standardHigh]}
      lower={figure.serviceLow}
      upper={figure.serviceHigh}
      reading={reading}
      earlier={earlierOf(row)}
      verdict={verdictOf(row.newest)}
      decimals={figure.decimals}
      unit={unit}
      format={format.number}
      width={150}
      compact
      words={spans ? { ...englishWords, strip: { ...englishWords.strip, interval: words.between } } : englishWords}
    />
  );
}

/** A figure of one round; an earlier one carries its own sign, since its verdict may have been another. */
function Figure({ finding, last }: { readonly finding: SheetFinding | undefined; readonly last: boolean }) {
  const format = useFormat();
  if (finding === undefined) return null;
  const said = finding.text.replaceAll(/\d+\.\d+/g, format.decimal);
  const band = said.indexOf('±');
  // A span and its guard band may stand on two lines, but the band stays whole.
  const text =
    band < 0 ? (
      said
    ) : (
      <>
        {said.slice(0, band)}
        <span className="nowrap">{said.slice(band)}</span>
      </>
    );
  if (last) return <b>{text}</b>;
  const verdict = verdictOf(finding);
  return (
    <span className="earlier-figure">
      <span>{text}</span> <VerdictSign verdict={verdict} width={12} />
      <span className="visually-hidden">{englishWords.verdict[verdict]}</span>
    </span>
  );
}

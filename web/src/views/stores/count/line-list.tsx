import type { CountLine, CountSheet } from '#contracts/counts.ts';
import { useFormat } from '../../../words/format.ts';
import { useWords } from '../../../words/words.tsx';
import { DecideForm } from './decide-form.tsx';
import { LineName } from './line-words.tsx';

/** The lines of a sheet that is not counted here: by bin, each with what may be told of it. */
export function LineList({ sheet }: { readonly sheet: CountSheet }) {
  const { sheet: words } = useWords().counts;
  return (
    <>
      {sheet.bins.map((bin) => {
        const lines = sheet.lines.filter((line) => line.bin.id === bin.id);
        return (
          <section key={bin.id} className="count-bin no-print">
            <h2>{words.bin(bin.code)}</h2>
            {lines.length === 0 ? <p className="nothing">{words.emptyBin}</p> : null}
            <ul>
              {lines.map((line) => (
                <li key={line.id}>
                  <div className="count-line-head">
                    <span>
                      <LineName line={line} />
                    </span>
                    <span className={line.state === 'settled' ? '' : 'hot'}>
                      <LineState line={line} />
                    </span>
                  </div>
                  <Seen sheet={sheet} line={line} />
                </li>
              ))}
            </ul>
          </section>
        );
      })}
    </>
  );
}

function LineState({ line }: { readonly line: CountLine }) {
  const { sheet: words, decide } = useWords().counts;
  const settled = line.seen?.settled ?? null;
  return <>{settled === null ? words.state[line.state] : decide.settled[settled.how]}</>;
}

function Seen({ sheet, line }: { readonly sheet: CountSheet; readonly line: CountLine }) {
  const { decide: words } = useWords().counts;
  const format = useFormat();
  const { seen } = line;
  if (seen === null) return null;
  const settled = seen.settled;
  const signed = seen.difference > 0 ? `+${seen.difference}` : String(seen.difference).replace('-', '−');
  return (
    <div className="count-seen">
      <ul className="plain" aria-label={words.counts}>
        {seen.counts.map(({ round, by, counted, books }) => (
          <li key={round}>{words.round(round, by, counted, books)}</li>
        ))}
      </ul>
      {seen.difference === 0 ? null : (
        <p>
          <b className="num">{words.difference(signed)}</b>
          {settled?.value === null || settled?.value === undefined ? '' : `, ${format.money(settled.value)}`}
          {settled === null ? '' : `, ${settled.by}: ${settled.reason}`}
          {settled === null && seen.moved ? `. ${words.moved}` : ''}
        </p>
      )}
      {settled === null ? <DecideForm sheetId={sheet.id} line={line} /> : null}
    </div>
  );
}

import type { Quantity } from '#contracts/wire.ts';
import type { CalculationKind } from '#domain/build/calculations/kinds.ts';
import { rowsOf } from '#domain/build/calculations/kinds.ts';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';
import { inOtherUnits, symbolFor } from './other-units.ts';

type Written = Readonly<Record<string, Quantity | null>>;

/** The name of a coded thing in the catalogue; the code itself where it has none. */
export const nameIn = (names: Readonly<Partial<Record<string, string>>>, code: string): string => names[code] ?? code;

export function FigureText({ figure }: { readonly figure: Quantity }) {
  const format = useFormat();
  const symbol = symbolFor(figure.unit);
  const apart = symbol === '' || symbol === '°' ? '' : ' ';
  return (
    <span className="num nowrap">
      {format.decimal(figure.value)}
      {apart}
      {symbol === '' ? null : <span className={symbol === '°' ? '' : 'reckon-symbol'}>{symbol}</span>}
    </span>
  );
}

/** The results, the one that was asked for first and largest; each also in the other country's units. */
export function Results({ figures }: { readonly figures: Written }) {
  const { looseBench: words } = useWords();
  const format = useFormat();
  return (
    <dl className="reckon-results">
      {Object.entries(figures).map(([code, figure]) =>
        figure === null ? null : (
          <div key={code} data-figure={code}>
            <dt>{nameIn(words.figures, code)}</dt>
            <dd>
              <FigureText figure={figure} />
              {inOtherUnits(figure).map(({ value, symbol }) => (
                <span key={symbol} className="note num nowrap">
                  {format.decimal(value)} {symbol}
                </span>
              ))}
            </dd>
          </div>
        ),
      )}
    </dl>
  );
}

interface RowsProps {
  readonly kind: CalculationKind;
  readonly rows: readonly { readonly name: string; readonly figures: Written }[];
}

/** Sizes side by side: one column a size, so that a difference is seen along a line. */
export function ComparedRows({ kind, rows }: RowsProps) {
  const { looseBench: words } = useWords();
  if (rows.length === 0) return null;
  const codes = Object.keys(rowsOf(kind)).filter((code) => rows.some(({ figures }) => figures[code] !== null));
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls has to be reached by keyboard
    <section className="reckon-rows" aria-labelledby="reckon-rows" tabIndex={0}>
      <h2 id="reckon-rows">{words.rows}</h2>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.size.name}</th>
            {rows.map(({ name }, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: two sizes may carry one name
              <th key={index} scope="col" className="n">
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {codes.map((code) => (
            <tr key={code}>
              <th scope="row">{nameIn(words.figures, code)}</th>
              {rows.map(({ figures }, index) => {
                const figure = figures[code];
                return (
                  // biome-ignore lint/suspicious/noArrayIndexKey: two sizes may carry one name
                  <td key={index} className="n">
                    {figure === null || figure === undefined ? '–' : <FigureText figure={figure} />}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

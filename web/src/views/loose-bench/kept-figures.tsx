import type { Quantity } from '#contracts/wire.ts';
import { findCalculation } from '#domain/build/calculations/kinds.ts';
import { useWords } from '../../words/words.tsx';
import { symbolFor } from './other-units.ts';
import { findPane } from './panes/kinds.ts';
import { FigureText, nameIn } from './results.tsx';

type Written = Readonly<Record<string, Quantity | null>>;

interface KeptProps {
  readonly kind: string;
  readonly given: Readonly<Record<string, unknown>>;
  readonly figures: Written;
  readonly rows: readonly { readonly name: string; readonly figures: Written }[];
  readonly cautions: readonly { readonly code: string; readonly words: string }[];
}

/** The name of a kept calculation, as the loose bench calls it. */
export function useKindName(): (kind: string) => string {
  const { looseBench: words, loosePanes } = useWords();
  return (kind) => {
    const pane = findPane(kind);
    if (pane !== undefined) return loosePanes.kinds[pane];
    const known = findCalculation(kind);
    return known === undefined ? kind : words.kinds[known];
  };
}

function givenText(value: unknown, lines: (count: number) => string): string {
  if (Array.isArray(value)) return lines(value.length);
  if (typeof value === 'object' && value !== null && 'value' in value && 'unit' in value) {
    const symbol = symbolFor(String(value.unit));
    return `${String(value.value)}${symbol === '°' || symbol === '' ? '' : ' '}${symbol}`;
  }
  return String(value);
}

/** What was given and what came out, each with its name. */
export function KeptFigures({ kind, given, figures, rows, cautions }: KeptProps) {
  const { looseBench: words } = useWords();
  const chosen = findPane(kind) !== undefined;
  return (
    <div className="kept-figures" data-kind={kind}>
      {chosen ? null : (
        <p className="unit note">
          {Object.entries(given)
            .map(([code, value]) => `${nameIn(words.inputs, code)} ${givenText(value, words.lines)}`)
            .join(', ')}
        </p>
      )}
      <KeptLine figures={figures} />
      {rows.map(({ name, figures: compared }, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: two sizes may carry one name
        <p key={index}>
          <b>{name}:</b> <KeptLine figures={compared} />
        </p>
      ))}
      {chosen ? cautions.map(({ code, words: said }) => <p key={code}>{said}</p>) : null}
    </div>
  );
}

function KeptLine({ figures }: { readonly figures: Written }) {
  const { looseBench, loosePanes } = useWords();
  const names: Readonly<Record<string, string>> = { ...loosePanes.figures, ...looseBench.figures };
  const order = Object.keys(names);
  // The database keeps what is named, not in which order: the catalogue has the order.
  const told = Object.entries(figures)
    .filter((entry): entry is [string, Quantity] => entry[1] !== null)
    .toSorted(([one], [other]) => order.indexOf(one) - order.indexOf(other));
  return (
    <span>
      {told.map(([code, figure], index) => (
        <span key={code}>
          {index === 0 ? '' : ', '}
          {nameIn(names, code)} <FigureText figure={figure} />
        </span>
      ))}
    </span>
  );
}

import type { ReactNode } from 'react';

export type PaperFact = readonly [name: string, value: ReactNode];

/** Names over values, as they stand in the head or the foot of a paper: inside a `dl`. */
export const PaperFacts = ({ facts }: { readonly facts: readonly PaperFact[] }) =>
  facts.map(([name, value]) => (
    <div key={name}>
      <dt>{name}</dt>
      <dd>{value}</dd>
    </div>
  ));

interface PaperHeadProps {
  readonly title: string;
  readonly facts: readonly PaperFact[];
  /** What stands between the title and the facts. */
  readonly lines?: ReactNode;
  /** What stands below the facts. */
  readonly below?: ReactNode;
  /** The engine, beside all of it. */
  readonly drawing: ReactNode;
}

/** The head of a printed sheet: what it is, its facts, and the engine drawn beside them. */
export function PaperHead({ title, facts, lines, below, drawing }: PaperHeadProps) {
  return (
    <header className="sheet-head">
      <div>
        <h1>{title}</h1>
        {lines}
        <dl>
          <PaperFacts facts={facts} />
        </dl>
        {below}
      </div>
      {drawing}
    </header>
  );
}

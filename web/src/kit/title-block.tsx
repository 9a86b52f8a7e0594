import type { ReactNode } from 'react';

export type TitleFact = {
  readonly name: string;
  readonly value: ReactNode;
  /** Takes two places. */
  readonly wide?: boolean;
  /** Not for whom the paper goes to. */
  readonly onScreen?: boolean;
};

export type TitleBlockProps = {
  readonly facts: readonly TitleFact[];
  readonly columns?: 2 | 4 | 6;
};

/** Facts only, ruled like the title block of a drawing. */
export function TitleBlock({ facts, columns = 4 }: TitleBlockProps) {
  return (
    <dl className={columns === 2 ? 'tb' : `tb of-${columns}`}>
      {facts.map(({ name, value, wide, onScreen }) => (
        <div key={name} className={[wide ? 'wide' : '', onScreen ? 'no-print' : ''].join(' ').trim() || undefined}>
          <dt>{name}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

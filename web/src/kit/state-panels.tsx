import type { ReactNode } from 'react';

type PanelProps = {
  readonly title: string;
  readonly children?: ReactNode;
  /** The button or link that does what the words advise. */
  readonly act?: ReactNode;
};

/** Nothing here yet, and what to do about it. */
export function Empty({ title, children, act }: PanelProps) {
  return (
    <div className="state empty">
      <h2>{title}</h2>
      {children === undefined ? null : <p>{children}</p>}
      {act}
    </div>
  );
}

export type ErrorStateProps = PanelProps & {
  /** What is kept and not lost. */
  readonly safe?: ReactNode;
};

/** What happened, what is safe, what to do. */
export function ErrorState({ title, children, safe, act }: ErrorStateProps) {
  return (
    <div className="state error" role="alert">
      <h2>{title}</h2>
      {children === undefined ? null : <p>{children}</p>}
      {safe === undefined ? null : <p>{safe}</p>}
      {act}
    </div>
  );
}

/** Who may, and how to ask. */
export function Forbidden({ title, children, act }: PanelProps) {
  return (
    <div className="state forbidden">
      <h2>{title}</h2>
      {children === undefined ? null : <p>{children}</p>}
      {act}
    </div>
  );
}

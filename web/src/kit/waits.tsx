import type { ReactNode } from 'react';

/** now: needs a hand; dated: has a date; somebody: waits for a person, a yes, a bay; offered: a handover is offered. */
export type WaitKind = 'now' | 'dated' | 'somebody' | 'offered';

export type Wait = { readonly id: string; readonly kind: WaitKind; readonly text: ReactNode };

export type WaitsProps = {
  readonly waits: readonly Wait[];
  /** Said when there is nothing to wait for. */
  readonly none: string;
};

/** What a job waits for, as short labels whose shape tells the kind. */
export function Waits({ waits, none }: WaitsProps) {
  return (
    <ul className="waits">
      {waits.map(({ id, kind, text }) => (
        <li key={id} className={kind === 'somebody' ? 'wait' : `wait wait-${kind}`}>
          {text}
        </li>
      ))}
      {waits.length === 0 ? <li className="wait wait-none">{none}</li> : null}
    </ul>
  );
}

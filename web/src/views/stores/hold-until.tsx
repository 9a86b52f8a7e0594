import { useState } from 'react';
import type { StoresBoard } from '#contracts/stores.ts';
import { useSession } from '../../app/session.tsx';
import { dayIn, useToday } from '../../app/today.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { instantOf } from '../custody/wall-clock.ts';

type Job = StoresBoard['jobs'][number];

/** Until when what is reserved for a job is held for the owner's yes; null: there is a yes, and it is held firmly. */
export type Hold = {
  readonly day: string;
  /** An empty day holds as long as the shop's rule says; else firmly. */
  readonly ruled: boolean;
  readonly today: string;
  readonly past: boolean;
  readonly change: (day: string) => void;
  /** What a reservation is asked with: the end of that day; nothing, where it is held firmly. */
  readonly body: { readonly expiresAt?: string };
};

export function useHold({ quote, heldUntil }: Pick<Job, 'quote' | 'heldUntil'>): Hold | null {
  const { zone } = useSession().shop;
  const today = useToday();
  const [keyed, setKeyed] = useState<string | null>(null);
  if (quote === 'yes') return null;
  const day = keyed ?? (heldUntil === null ? '' : dayIn(zone, Date.parse(heldUntil)));
  const until = day === '' ? undefined : instantOf(`${day}T23:59`, zone);
  return {
    day,
    ruled: heldUntil !== null,
    today,
    past: day !== '' && day < today,
    change: setKeyed,
    body: until === undefined ? {} : { expiresAt: until },
  };
}

/** The day up to which it is held; empty: firmly, or by the shop's rule where there is no yes. */
export function HoldUntil({ hold }: { readonly hold: Hold }) {
  const { job: words } = useWords().stores;
  return (
    <Field
      label={words.holdUntil}
      hint={hold.ruled ? words.holdRuled : words.holdHint}
      error={hold.past ? words.holdPast : undefined}
    >
      {(input) => (
        <input
          {...input}
          type="date"
          min={hold.today}
          value={hold.day}
          onChange={({ target }) => hold.change(target.value)}
        />
      )}
    </Field>
  );
}

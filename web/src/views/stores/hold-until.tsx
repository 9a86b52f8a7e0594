import { useState } from 'react';
import type { StoresBoard } from '#contracts/stores.ts';
import { useSession } from '../../app/session.tsx';
import { dayIn, useToday } from '../../app/today.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { instantOf } from '../custody/wall-clock.ts';

type Answer = StoresBoard['jobs'][number]['quote'];

/** So long a quote that is out is waited for, unless another day is keyed. */
const USUAL_DAYS = 14;
const DAY = 86_400_000;

/** Until when what is reserved for a job is held for the owner's yes; null: there is a yes, and it is held firmly. */
export type Hold = {
  readonly day: string;
  readonly today: string;
  readonly past: boolean;
  readonly change: (day: string) => void;
  /** What a reservation is asked with: the end of that day; nothing, where it is held firmly. */
  readonly body: { readonly expiresAt?: string };
};

export function useHold(quote: Answer): Hold | null {
  const { zone } = useSession().shop;
  const today = useToday();
  const [keyed, setKeyed] = useState<string | null>(null);
  if (quote === 'yes') return null;
  const day = keyed ?? (quote === 'not answered' ? dayIn(zone, Date.now() + USUAL_DAYS * DAY) : '');
  const until = day === '' ? undefined : instantOf(`${day}T23:59`, zone);
  return {
    day,
    today,
    past: day !== '' && day < today,
    change: setKeyed,
    body: until === undefined ? {} : { expiresAt: until },
  };
}

/** The day up to which it is held; empty: firmly. */
export function HoldUntil({ hold }: { readonly hold: Hold }) {
  const { job: words } = useWords().stores;
  return (
    <Field label={words.holdUntil} hint={words.holdHint} error={hold.past ? words.holdPast : undefined}>
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

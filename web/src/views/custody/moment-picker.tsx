import { useState } from 'react';
import type { WhoHeld } from '#contracts/custody-past.ts';
import { useSession } from '../../app/session.tsx';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { instantOf, wallClockOf } from './wall-clock.ts';

interface MomentPickerProps {
  readonly held: WhoHeld;
  /** Null: now. */
  readonly at: string | null;
  readonly onChange: (at: string | null) => void;
}

/** A moment by date and time, or from change to change. */
export function MomentPicker({ held, at, onChange }: MomentPickerProps) {
  const words = useWords().custody;
  const { shop } = useSession();
  const [keyed, setKeyed] = useState<string | null>(null);
  const { before, after } = held;
  return (
    <div className="moment-picker no-print">
      <Field label={words.moment}>
        {(input) => (
          <input
            {...input}
            type="datetime-local"
            value={keyed ?? wallClockOf(held.at, shop.zone)}
            onChange={({ target }) => {
              setKeyed(target.value);
              const instant = instantOf(target.value, shop.zone);
              if (instant !== undefined) onChange(instant);
            }}
            onBlur={() => setKeyed(null)}
          />
        )}
      </Field>
      <Button big disabled={before === null} onClick={() => onChange(before)}>
        <span aria-hidden="true">◂ </span>
        {words.before}
      </Button>
      <Button big disabled={after === null} onClick={() => onChange(after)}>
        {words.after}
        <span aria-hidden="true"> ▸</span>
      </Button>
      <Button big kind="main" disabled={at === null} onClick={() => onChange(null)}>
        {words.now}
      </Button>
    </div>
  );
}

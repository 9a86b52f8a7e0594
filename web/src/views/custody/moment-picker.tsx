import { useState } from 'react';
import type { WhoHeld } from '#contracts/custody-past.ts';
import { Button } from '../../kit/button.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

const two = (number: number): string => String(number).padStart(2, '0');
/** An instant as the field for date and time wants it, in the terminal's own zone. */
const local = (instant: string): string => {
  const on = new Date(instant);
  return `${on.getFullYear()}-${two(on.getMonth() + 1)}-${two(on.getDate())}T${two(on.getHours())}:${two(on.getMinutes())}`;
};

interface MomentPickerProps {
  readonly held: WhoHeld;
  /** Null: now. */
  readonly at: string | null;
  readonly onChange: (at: string | null) => void;
}

/** A moment by date and time, or from change to change. */
export function MomentPicker({ held, at, onChange }: MomentPickerProps) {
  const words = useWords().custody;
  const [keyed, setKeyed] = useState<string | null>(null);
  const { before, after } = held;
  return (
    <div className="moment-picker no-print">
      <Field label={words.moment}>
        {(input) => (
          <input
            {...input}
            type="datetime-local"
            value={keyed ?? local(held.at)}
            onChange={({ target }) => {
              setKeyed(target.value);
              const instant = Date.parse(target.value);
              if (Number.isFinite(instant)) onChange(new Date(instant).toISOString());
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

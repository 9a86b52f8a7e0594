import type { Input } from '#domain/build/calculations/calculation.ts';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';
import { type Entry, unitsFor } from './entries.ts';
import { symbolFor } from './other-units.ts';

export interface InputFieldProps {
  readonly code: string;
  readonly name: string;
  readonly hint: string | undefined;
  readonly input: Input;
  readonly entry: Entry;
  readonly error: string | undefined;
  readonly change: (entry: Entry) => void;
}

/** One figure with its unit beside it; several lines where it is a table. */
export function InputField({ code, name, hint, input, entry, error, change }: InputFieldProps) {
  const { looseBench: words } = useWords();
  const units = unitsFor(code, input);
  const label = (
    <>
      {name} {input.optional ? <span className="note">{words.optional}</span> : null}
    </>
  );
  const table = input.sort === 'lift-table';
  return (
    <Field label={label} error={error} {...(hint === undefined ? {} : { hint })}>
      {(props) => (
        <div className={table ? 'reckon-input tall' : 'reckon-input'}>
          {table ? (
            <textarea
              {...props}
              className="num"
              rows={Math.min(40, Math.max(9, entry.text.split('\n').length))}
              spellCheck={false}
              autoComplete="off"
              value={entry.text}
              onChange={({ target }) => change({ ...entry, text: target.value })}
            />
          ) : (
            <input
              {...props}
              className="num"
              inputMode="text"
              autoComplete="off"
              spellCheck={false}
              maxLength={40}
              value={entry.text}
              onChange={({ target }) => change({ ...entry, text: target.value })}
            />
          )}
          <UnitBeside
            label={words.unitOf(name)}
            units={units}
            unit={entry.unit}
            plain={input.unit}
            change={(unit) => change({ ...entry, unit })}
          />
        </div>
      )}
    </Field>
  );
}

interface UnitProps {
  readonly label: string;
  readonly units: readonly string[];
  readonly unit: string;
  readonly plain: string | undefined;
  readonly change: (unit: string) => void;
}

/** A choice where there are several, a word where there is one, nothing for a plain number. */
function UnitBeside({ label, units, unit, plain, change }: UnitProps) {
  if (units.length < 2) {
    const symbol = units[0] ?? plain;
    return symbol === undefined ? null : <span className="reckon-unit">{symbolFor(symbol)}</span>;
  }
  return (
    <select aria-label={label} value={unit} onChange={({ target }) => change(target.value)}>
      {units.map((code) => (
        <option key={code} value={code}>
          {symbolFor(code)}
        </option>
      ))}
    </select>
  );
}

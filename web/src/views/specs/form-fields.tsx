import { Field } from '../../kit/field.tsx';
import { symbolOf } from '../../words/quantity-text.ts';
import { useFault } from './fault-scope.tsx';

interface TextProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: string;
  readonly required?: boolean;
  /** Where it stands in what is sent, so that it tells what was wrong with it. */
  readonly at?: string;
}

export function TextField({ label, value, onChange, hint, required = false, at }: TextProps) {
  return (
    <Field label={label} error={useFault(at)} {...(hint === undefined ? {} : { hint })}>
      {(input) => (
        <input {...input} required={required} value={value} onChange={({ target }) => onChange(target.value)} />
      )}
    </Field>
  );
}

/** Words that may take a few lines. */
export function LinesField({ label, value, onChange, hint, at }: Omit<TextProps, 'required'>) {
  return (
    <Field label={label} error={useFault(at)} {...(hint === undefined ? {} : { hint })}>
      {(input) => <textarea {...input} rows={3} value={value} onChange={({ target }) => onChange(target.value)} />}
    </Field>
  );
}

interface SelectProps<Value extends string> {
  readonly label: string;
  readonly value: Value | '';
  readonly options: readonly (readonly [Value, string])[];
  readonly onChange: (value: Value | null) => void;
  /** Said where nothing is chosen; without it something always is. */
  readonly none?: string;
  readonly at?: string;
}

export function SelectField<Value extends string>({ label, value, options, onChange, none, at }: SelectProps<Value>) {
  return (
    <Field label={label} error={useFault(at)}>
      {(input) => (
        <select
          {...input}
          value={value}
          onChange={({ target }) => onChange(options.find(([one]) => one === target.value)?.[0] ?? null)}
        >
          {none === undefined ? null : <option value="">{none}</option>}
          {options.map(([one, name]) => (
            <option key={one} value={one}>
              {name}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}

interface FigureProps {
  readonly label: string;
  readonly figure: { readonly value: string; readonly unit: string } | null;
  readonly units: readonly string[];
  /** The unit that an empty figure begins with. */
  readonly unit: string;
  readonly onChange: (figure: { value: string; unit: string }) => void;
  readonly at?: string;
}

/** Digits and unit as the source prints them, side by side. */
export function FigureField({ label, figure, units, unit, onChange, at }: FigureProps) {
  const now = figure ?? { value: '', unit };
  return (
    <Field label={label} error={useFault(at)}>
      {(input) => (
        <span className="figure-entry">
          <input
            {...input}
            className="num"
            inputMode="decimal"
            value={now.value}
            onChange={({ target }) => onChange({ ...now, value: target.value })}
          />
          {units.length === 1 && units[0] === now.unit ? (
            <span className="num">{symbolOf(now.unit)}</span>
          ) : (
            <select
              aria-label={`${label}, ${symbolOf(now.unit)}`}
              value={now.unit}
              onChange={({ target }) => onChange({ ...now, unit: target.value })}
            >
              {units.map((one) => (
                <option key={one} value={one}>
                  {symbolOf(one)}
                </option>
              ))}
            </select>
          )}
        </span>
      )}
    </Field>
  );
}

import { Field } from '../../kit/field.tsx';
import { symbolOf } from '../../words/quantity-text.ts';

interface TextProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly hint?: string;
  readonly required?: boolean;
}

export function TextField({ label, value, onChange, hint, required = false }: TextProps) {
  return (
    <Field label={label} {...(hint === undefined ? {} : { hint })}>
      {(input) => (
        <input {...input} required={required} value={value} onChange={({ target }) => onChange(target.value)} />
      )}
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
}

export function SelectField<Value extends string>({ label, value, options, onChange, none }: SelectProps<Value>) {
  return (
    <Field label={label}>
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
}

/** Digits and unit as the source prints them, side by side. */
export function FigureField({ label, figure, units, unit, onChange }: FigureProps) {
  const now = figure ?? { value: '', unit };
  return (
    <Field label={label}>
      {(input) => (
        <span className="figure-entry">
          <input
            {...input}
            className="num"
            inputMode="decimal"
            value={now.value}
            onChange={({ target }) => onChange({ ...now, value: target.value })}
          />
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
        </span>
      )}
    </Field>
  );
}

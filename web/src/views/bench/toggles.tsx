import type { ReactNode } from 'react';

export interface TogglesProps {
  readonly label: string;
  readonly options: readonly { readonly value: string; readonly label: ReactNode; readonly note?: ReactNode }[];
  readonly chosen: readonly string[];
  readonly onChange: (chosen: readonly string[]) => void;
}

/** Any of a few, each a target a glove can hit. */
export function Toggles({ label, options, chosen, onChange }: TogglesProps) {
  return (
    <fieldset className="toggles">
      <legend>{label}</legend>
      <div className="toggle-options">
        {options.map(({ value, label: name, note }) => (
          <label key={value} className="toggle-option">
            <input
              type="checkbox"
              checked={chosen.includes(value)}
              onChange={({ target }) =>
                onChange(target.checked ? [...chosen, value] : chosen.filter((other) => other !== value))
              }
            />
            <span>
              {name}
              {note === undefined ? null : <span className="choice-note"> {note}</span>}
            </span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

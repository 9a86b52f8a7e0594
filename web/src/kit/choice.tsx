import type { ReactNode } from 'react';
import { Label, Radio, RadioGroup } from 'react-aria-components';

export type ChoiceOption<Value extends string> = {
  readonly value: Value;
  readonly label: ReactNode;
  readonly note?: ReactNode;
  readonly disabled?: boolean;
};

export type ChoiceProps<Value extends string> = {
  readonly label: string;
  readonly options: readonly ChoiceOption<Value>[];
  readonly value: Value | null;
  readonly onChange: (value: Value) => void;
  readonly disabled?: boolean;
};

/** One of a few, each a target a glove can hit; arrow keys move through them. */
export function Choice<Value extends string>({
  label,
  options,
  value,
  onChange,
  disabled = false,
}: ChoiceProps<Value>) {
  const choose = (chosen: string) => {
    const option = options.find((one) => one.value === chosen);
    if (option !== undefined) onChange(option.value);
  };
  return (
    <RadioGroup className="choice" value={value} onChange={choose} isDisabled={disabled}>
      <Label className="choice-label">{label}</Label>
      <div className="choice-options">
        {options.map((option) => (
          <Radio
            key={option.value}
            value={option.value}
            className="choice-option"
            isDisabled={option.disabled ?? false}
          >
            <span>
              {option.label}
              {option.note === undefined ? null : <span className="choice-note"> {option.note}</span>}
            </span>
          </Radio>
        ))}
      </div>
    </RadioGroup>
  );
}

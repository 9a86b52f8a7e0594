import { Button, Group, Input, NumberField } from 'react-aria-components';

export type StepperProps = {
  /** What is counted: the accessible name. */
  readonly label: string;
  readonly value: number;
  readonly onChange: (value: number) => void;
  readonly min?: number;
  readonly max?: number;
  readonly disabled?: boolean;
};

/** A count between two big keys; it can be typed as well. */
export function Stepper({ label, value, onChange, min = 0, max = 999, disabled = false }: StepperProps) {
  return (
    <NumberField
      aria-label={label}
      value={value}
      minValue={min}
      maxValue={max}
      step={1}
      isDisabled={disabled}
      // Clearing the box says NaN: the count stays what it was until there is a number again.
      onChange={(count) => (Number.isFinite(count) ? onChange(count) : undefined)}
    >
      <Group className="stepper">
        <Button slot="decrement">−</Button>
        <Input />
        <Button slot="increment">+</Button>
      </Group>
    </NumberField>
  );
}

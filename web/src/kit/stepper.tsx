import type { KeyboardEvent, ReactNode } from 'react';
import { Button, Group, Input, NumberField } from 'react-aria-components';

export type StepperProps = {
  /** What is counted: the accessible name. */
  readonly label: string;
  /** `null`: not counted yet, which is not the same as none. */
  readonly value: number | null;
  readonly onChange: (value: number) => void;
  readonly min?: number;
  readonly max?: number;
  readonly disabled?: boolean;
};

/** What the arrow keys say of a box nobody has counted in yet. */
const FIRST_BY_KEY: Readonly<Record<string, number>> = { ArrowUp: 1, ArrowDown: 0 };

/** A count between two big keys; it can be typed as well. One not counted yet stands blank: the keys say none, or one. */
export function Stepper({ label, value, onChange, min = 0, max = 999, disabled = false }: StepperProps) {
  const blank = value === null;
  const firstByKey = (event: KeyboardEvent) => {
    const first = FIRST_BY_KEY[event.key];
    if (!blank || first === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    onChange(Math.max(min, first));
  };
  return (
    <NumberField
      aria-label={label}
      value={value ?? Number.NaN}
      minValue={min}
      maxValue={max}
      step={1}
      isDisabled={disabled}
      isWheelDisabled={blank}
      // Clearing the box says NaN: the count stays what it was until there is a number again.
      onChange={(count) => (Number.isFinite(count) ? onChange(count) : undefined)}
    >
      <Group className="stepper" onKeyDownCapture={firstByKey}>
        {blank ? (
          <FirstKey of={label} count={min} shown={min} say={onChange} disabled={disabled} />
        ) : (
          <Button slot="decrement">−</Button>
        )}
        <Input placeholder="–" />
        {blank ? (
          <FirstKey of={label} count={Math.max(min, 1)} shown="+" say={onChange} disabled={disabled} />
        ) : (
          <Button slot="increment">+</Button>
        )}
      </Group>
    </NumberField>
  );
}

interface FirstKeyProps {
  readonly of: string;
  readonly count: number;
  readonly shown: ReactNode;
  readonly say: (count: number) => void;
  readonly disabled: boolean;
}

/** A key of a blank box: says its first count at once. */
const FirstKey = ({ of, count, shown, say, disabled }: FirstKeyProps) => (
  <Button
    slot={null}
    excludeFromTabOrder
    isDisabled={disabled}
    aria-label={`${count}, ${of}`}
    onPress={() => say(count)}
  >
    {shown}
  </Button>
);

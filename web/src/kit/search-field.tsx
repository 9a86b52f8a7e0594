import { Field, type FieldProps } from './field.tsx';

type SearchFieldProps = Omit<FieldProps, 'children' | 'error'> & {
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** Of letters. */
  readonly most: number;
  /** What a scan finds while the cursor stands in it. */
  readonly finds?: string;
};

/** Words to find something by. */
export function SearchField({ value, onChange, most, finds, ...field }: SearchFieldProps) {
  return (
    <Field {...field}>
      {(input) => (
        <input
          {...input}
          data-finds={finds}
          type="search"
          autoComplete="off"
          maxLength={most}
          value={value}
          onChange={({ target }) => onChange(target.value)}
        />
      )}
    </Field>
  );
}

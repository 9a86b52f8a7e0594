import { Field } from './field.tsx';

interface WordsFieldProps {
  readonly label: string;
  readonly hint?: string | undefined;
  readonly error?: string | undefined;
  readonly rows?: number;
  readonly most: number;
  readonly value: string;
  readonly onChange: (value: string) => void;
}

/** A field for a sentence or more. */
export function WordsField({ rows = 2, most, value, onChange, ...said }: WordsFieldProps) {
  return (
    <Field {...said}>
      {(input) => (
        <textarea
          {...input}
          rows={rows}
          maxLength={most}
          value={value}
          onChange={({ target }) => onChange(target.value)}
        />
      )}
    </Field>
  );
}

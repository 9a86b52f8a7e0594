import { type ReactNode, useId } from 'react';

/** What an input must carry to belong to its label, hint and error. */
export type FieldInput = {
  readonly id: string;
  readonly 'aria-describedby'?: string;
  readonly 'aria-invalid'?: true;
};

export type FieldProps = {
  readonly label: ReactNode;
  readonly hint?: ReactNode;
  /** What is wrong and what to do. */
  readonly error?: ReactNode;
  readonly big?: boolean;
  readonly children: (input: FieldInput) => ReactNode;
};

/** Label, control and error text, tied together for those who can't see that they stand together. */
export function Field({ label, hint, error, big = false, children }: FieldProps) {
  const id = useId();
  const wrong = error !== undefined && error !== null && error !== '';
  const described = [...(hint === undefined ? [] : [`${id}hint`]), ...(wrong ? [`${id}error`] : [])].join(' ');
  return (
    <div className={big ? 'field big' : 'field'}>
      <label htmlFor={id}>{label}</label>
      {children({
        id,
        ...(described === '' ? {} : { 'aria-describedby': described }),
        ...(wrong ? { 'aria-invalid': true as const } : {}),
      })}
      {hint === undefined ? null : (
        <p className="note" id={`${id}hint`}>
          {hint}
        </p>
      )}
      {wrong ? (
        <p className="field-error" id={`${id}error`} role="alert">
          {error}
        </p>
      ) : null}
    </div>
  );
}

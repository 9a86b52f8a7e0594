import type { FormEvent, ReactNode } from 'react';
import { Refusal } from '../../app/refusal.tsx';
import { faultAt, isSaidAt, type Writing } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

export type SetUpDialogProps = {
  readonly title: string;
  readonly writing: Writing<unknown>;
  readonly keep: () => void;
  readonly onClose: () => void;
  /** Fields that say themselves what is wrong with them, by pointer. */
  readonly said: readonly string[];
  readonly ready?: boolean;
  readonly adding?: boolean;
  readonly children: ReactNode;
  /** Acts beside keeping, such as giving a bay up. */
  readonly more?: ReactNode;
};

/** A form over the page: its fields, what was refused, keep or leave it. */
export function SetUpDialog({
  title,
  writing,
  keep,
  onClose,
  said,
  ready = true,
  adding = false,
  children,
  more,
}: SetUpDialogProps) {
  const words = useWords().shop;
  const submit = (event: FormEvent) => {
    event.preventDefault();
    keep();
  };
  return (
    <Dialog title={title} open onClose={onClose}>
      <form className="form" onSubmit={submit}>
        {children}
        {isSaidAt(writing.error, said) ? null : <Refusal error={writing.error} />}
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={!ready || writing.busy}>
            {adding ? words.add : words.keep}
          </Button>
          <Button onClick={onClose}>{words.cancel}</Button>
          {more}
        </div>
      </form>
    </Dialog>
  );
}

export type TextFieldProps = {
  readonly label: string;
  readonly hint?: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly pointer: string;
  readonly error: Error | null;
  readonly numeric?: boolean;
  readonly most?: number;
};

/** One line of text, with what the server says about it beneath. */
export function TextField({
  label,
  hint,
  value,
  onChange,
  pointer,
  error,
  numeric = false,
  most = 120,
}: TextFieldProps) {
  return (
    <Field label={label} error={faultAt(error, pointer)} {...(hint === undefined ? {} : { hint })}>
      {(input) => (
        <input
          {...input}
          inputMode={numeric ? 'numeric' : 'text'}
          maxLength={most}
          autoComplete="off"
          value={value}
          onChange={({ target }) => onChange(target.value)}
        />
      )}
    </Field>
  );
}

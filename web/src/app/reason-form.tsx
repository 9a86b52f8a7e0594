import { type ReactNode, useState } from 'react';
import { Button } from '../kit/button.tsx';
import { Field } from '../kit/field.tsx';
import { WordsField } from '../kit/words-field.tsx';
import { Refusal } from './refusal.tsx';
import { useWrite } from './write.ts';

export interface ReasonFormProps {
  readonly label: string;
  readonly hint?: string;
  readonly go: string;
  readonly cancel: string;
  readonly path: string;
  /** Of letters. */
  readonly most?: number;
  /** Lines in sight, where more than one is wanted. */
  readonly rows?: number;
  /** For gloved hands. */
  readonly big?: boolean;
  /** What is asked here is what the form is for. */
  readonly main?: boolean;
  readonly formClass: string;
  readonly actsClass: string;
  readonly bodyOf: (reason: string) => object;
  /** Said before the reason is asked for. */
  readonly lead?: ReactNode;
  readonly onCancel: () => void;
  readonly onDone: () => void;
}

/** An act that needs a reason, and is sent with it: not before one is given. */
export function ReasonForm({ most = 500, big = false, main = big, ...of }: ReasonFormProps) {
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const ready = reason.trim() !== '' && !writing.busy;
  const said = { label: of.label, ...(of.hint === undefined ? {} : { hint: of.hint }) };
  return (
    <form
      className={of.formClass}
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) writing.write({ path: of.path, body: of.bodyOf(reason.trim()) }, of.onDone);
      }}
    >
      {of.lead}
      {of.rows === undefined ? (
        <Field {...said} big={big}>
          {(input) => (
            <input {...input} maxLength={most} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
      ) : (
        <WordsField {...said} rows={of.rows} most={most} value={reason} onChange={setReason} />
      )}
      <Refusal error={writing.error} />
      <div className={of.actsClass}>
        <Button type="submit" kind={main ? 'main' : 'plain'} big={big} disabled={!ready}>
          {of.go}
        </Button>
        <Button big={big} onClick={of.onCancel}>
          {of.cancel}
        </Button>
      </div>
    </form>
  );
}

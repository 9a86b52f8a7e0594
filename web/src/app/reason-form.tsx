import { useState } from 'react';
import { Button } from '../kit/button.tsx';
import { Field } from '../kit/field.tsx';
import { Refusal } from './refusal.tsx';
import { useWrite } from './write.ts';

interface ReasonFormProps {
  readonly label: string;
  readonly hint?: string;
  readonly go: string;
  readonly cancel: string;
  readonly path: string;
  /** Of letters. */
  readonly most?: number;
  /** For gloved hands. */
  readonly big?: boolean;
  readonly formClass: string;
  readonly actsClass: string;
  readonly bodyOf: (reason: string) => object;
  readonly onCancel: () => void;
  readonly onDone: () => void;
}

/** An act that needs a reason, and is sent with it: not before one is given. */
export function ReasonForm({ most = 500, big = false, ...of }: ReasonFormProps) {
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const ready = reason.trim() !== '' && !writing.busy;
  return (
    <form
      className={of.formClass}
      onSubmit={(event) => {
        event.preventDefault();
        if (ready) writing.write({ path: of.path, body: of.bodyOf(reason.trim()) }, of.onDone);
      }}
    >
      <Field label={of.label} big={big} {...(of.hint === undefined ? {} : { hint: of.hint })}>
        {(input) => (
          <input {...input} maxLength={most} value={reason} onChange={({ target }) => setReason(target.value)} />
        )}
      </Field>
      <Refusal error={writing.error} />
      <div className={of.actsClass}>
        <Button type="submit" kind={big ? 'main' : 'plain'} big={big} disabled={!ready}>
          {of.go}
        </Button>
        <Button big={big} onClick={of.onCancel}>
          {of.cancel}
        </Button>
      </div>
    </form>
  );
}

import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { Button } from '../kit/button.tsx';
import { Field } from '../kit/field.tsx';
import { RefusedError, send } from './api.ts';
import { FaultTable } from './fault-table.tsx';
import { newKey } from './key.ts';
import { invalidateFor } from './query-client.ts';
import { Refusal } from './refusal.tsx';

type Step = 'check' | 'take';

/** A file on its way in: checked first, with what it would bring or what is wrong with it, then kept whole. */
export interface CheckedFile<Taken> {
  readonly text: string;
  /** Rows below the header, as a spreadsheet shows them. */
  readonly rows: number;
  readonly choose: (file: File) => void;
  /** Forgets what was checked, since something that matters to it was changed. */
  readonly reset: () => void;
  /** Does the step that comes next. */
  readonly go: () => void;
  /** The step on its way. */
  readonly sending: Step | undefined;
  readonly checked: Taken | undefined;
  readonly taken: Taken | undefined;
  readonly error: Error | null;
}

/** @param pathOf where the file is sent, by the step */
export function useCheckedFile<Taken>(pathOf: (step: Step) => string): CheckedFile<Taken> {
  const [text, setText] = useState('');
  // One key as long as the same file is to be kept: asked again because the answer was lost, it is kept once.
  const [key, setKey] = useState(newKey);
  const mutation = useMutation<Taken, Error, Step>({
    mutationFn: (step) => send(pathOf(step), undefined, { csv: text, key: step === 'take' ? key : newKey() }),
    onSuccess: (_taken, step) => {
      if (step === 'take') invalidateFor('everything');
    },
  });
  const [checked, setChecked] = useState<Taken | undefined>();
  const reset = () => {
    mutation.reset();
    setChecked(undefined);
    setKey(newKey());
  };
  return {
    text,
    rows: Math.max(0, text.trimEnd().split('\n').length - 1),
    choose: (file) => {
      reset();
      void file.text().then(setText);
    },
    reset,
    go: () => {
      if (checked !== undefined) mutation.mutate('take');
      else mutation.mutate('check', { onSuccess: setChecked });
    },
    sending: mutation.isPending ? mutation.variables : undefined,
    checked,
    taken: mutation.variables === 'take' ? mutation.data : undefined,
    error: mutation.error,
  };
}

interface FileFieldProps {
  readonly label: string;
  /** What is said of a file that was chosen. */
  readonly hint: string;
  readonly file: Pick<CheckedFile<unknown>, 'text' | 'choose'>;
}

export function CsvFileField({ label, hint, file }: FileFieldProps) {
  return (
    <Field label={label} {...(file.text === '' ? {} : { hint })} big>
      {(input) => (
        <input
          {...input}
          type="file"
          accept=".csv,.txt,text/csv,text/plain"
          onChange={({ target }) => {
            const [chosen] = target.files ?? [];
            if (chosen !== undefined) file.choose(chosen);
          }}
        />
      )}
    </Field>
  );
}

interface FaultsProps {
  readonly error: Error | null;
  readonly words: { readonly wrong: string; readonly where: string; readonly what: string };
}

/** What is wrong with a file, row by row, or why it was refused as a whole. */
export function CsvFaults({ error, words }: FaultsProps) {
  const faults = error instanceof RefusedError && error.code === 'csv-row' ? (error.problem.errors ?? []) : [];
  if (faults.length === 0) return <Refusal error={error} />;
  return <FaultTable faults={faults} title={words.wrong} where={words.where} what={words.what} />;
}

interface ActsProps<Taken> {
  readonly file: CheckedFile<Taken>;
  /** True when all that has to be said beside the file is said. */
  readonly ready?: boolean;
  readonly words: { readonly check: string; readonly take: (checked: Taken) => string; readonly close: string };
  readonly onClose: () => void;
}

/** At the foot of the dialog: check it, then keep it, then only close. */
export function CheckedFileActs<Taken>({ file, ready = true, words, onClose }: ActsProps<Taken>) {
  return (
    <>
      {file.taken === undefined ? (
        <Button big kind="main" disabled={!ready || file.text === '' || file.sending !== undefined} onClick={file.go}>
          {file.checked === undefined ? words.check : words.take(file.checked)}
        </Button>
      ) : null}
      <Button big onClick={onClose}>
        {words.close}
      </Button>
    </>
  );
}

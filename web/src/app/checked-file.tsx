import { useState } from 'react';
import { FileField } from '../kit/file-field.tsx';
import { RefusedError, send } from './api.ts';
import { type CheckedWrite, type Step, useCheckedWrite } from './checked-write.tsx';
import { FaultTable } from './fault-table.tsx';
import { Refusal } from './refusal.tsx';

/** A file on its way in: checked first, then kept whole. */
export interface CheckedFile<Taken> extends CheckedWrite<Taken> {
  readonly text: string;
  /** Rows below the header, as a spreadsheet shows them. */
  readonly rows: number;
  readonly choose: (file: File) => void;
}

/** @param pathOf where the file is sent, by the step */
export function useCheckedFile<Taken>(pathOf: (step: Step) => string): CheckedFile<Taken> {
  const [text, setText] = useState('');
  const writing = useCheckedWrite<Taken>((step, key) => send(pathOf(step), undefined, { csv: text, key }));
  return {
    ...writing,
    text,
    rows: Math.max(0, text.trimEnd().split('\n').length - 1),
    choose: (file) => {
      writing.reset();
      void file.text().then(setText);
    },
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
    <FileField
      label={label}
      {...(file.text === '' ? {} : { hint })}
      accept=".csv,.txt,text/csv,text/plain"
      onFile={file.choose}
    />
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

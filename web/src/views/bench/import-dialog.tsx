import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { KeptReadings } from '#contracts/readings.ts';
import { RefusedError, send } from '../../app/api.ts';
import { FaultTable } from '../../app/fault-table.tsx';
import { newKey } from '../../app/key.ts';
import { invalidateFor } from '../../app/query-client.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { FileField } from '../../kit/file-field.tsx';
import { useWords } from '../../words/words.tsx';

interface ImportDialogProps {
  readonly jobId: string;
  readonly open: boolean;
  readonly onClose: () => void;
}

function BadRows({ error }: { readonly error: Error | null }) {
  const { measure } = useWords();
  const faults = error instanceof RefusedError && error.code === 'csv-row' ? (error.problem.errors ?? []) : [];
  if (faults.length === 0) return <Refusal error={error} />;
  const { wrong, where, what } = measure.file;
  return <FaultTable faults={faults} title={wrong} where={where} what={what} />;
}

/** Readings from a file or a paste: all of it, or every bad row named. */
export function ImportDialog({ jobId, open, onClose }: ImportDialogProps) {
  const { measure } = useWords();
  const words = measure.file;
  const [text, setText] = useState('');
  const sending = useMutation<KeptReadings, Error, { csv: string; key: string }>({
    mutationFn: ({ csv, key }) => send(`/jobs/${jobId}/readings/import`, undefined, { csv, key }),
    onSuccess: () => {
      setText('');
      invalidateFor('everything');
    },
  });
  const close = () => {
    sending.reset();
    setText('');
    onClose();
  };
  return (
    <Dialog
      title={words.title}
      open={open}
      onClose={close}
      acts={
        <>
          <Button
            big
            kind="main"
            disabled={text.trim() === '' || sending.isPending}
            onClick={() => sending.mutate({ csv: text, key: newKey() })}
          >
            {words.send}
          </Button>
          <Button big onClick={close}>
            {words.close}
          </Button>
        </>
      }
    >
      <div className="form">
        <p>{words.how}</p>
        <p>
          <a className="btn template" href={`/api/jobs/${jobId}/readings/template.csv`} download="readings.csv">
            {words.template}
          </a>
        </p>
        <FileField
          label={words.pick}
          accept=".csv,.txt,text/csv,text/plain"
          onFile={(file) => {
            sending.reset();
            void file.text().then(setText);
          }}
        />
        <Field label={words.paste}>
          {(input) => (
            <textarea
              {...input}
              rows={6}
              spellCheck={false}
              className="num"
              value={text}
              onChange={(event) => {
                sending.reset();
                setText(event.target.value);
              }}
            />
          )}
        </Field>
        {sending.data === undefined ? null : (
          <p role="status">
            <b>{words.kept(sending.data.readings.length)}</b>
          </p>
        )}
        <BadRows error={sending.error} />
      </div>
    </Dialog>
  );
}

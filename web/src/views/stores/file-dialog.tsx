import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { FileTaken } from '#contracts/stores-files.ts';
import { RefusedError, send } from '../../app/api.ts';
import { FaultTable } from '../../app/fault-table.tsx';
import { newKey } from '../../app/key.ts';
import { invalidateFor } from '../../app/query-client.ts';
import { Refusal } from '../../app/refusal.tsx';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useFormat } from '../../words/format.ts';
import { useWords } from '../../words/words.tsx';

export type Brought = 'bins' | 'kits' | 'parts';
type Step = 'check' | 'take';

interface DialogProps {
  readonly what: Brought;
  readonly onClose: () => void;
}

/** Brings a file in: checked first, with what it would bring or what is wrong with it, then kept whole. */
export function FileDialog({ what, onClose }: DialogProps) {
  const { storeFiles: words } = useWords();
  const format = useFormat();
  const [text, setText] = useState('');
  const sending = useMutation<FileTaken, Error, { step: Step; key: string }>({
    mutationFn: ({ step, key }) =>
      send(`/${what}/import${step === 'check' ? '/check' : ''}`, undefined, { csv: text, key }),
    onSuccess: (_taken, { step }) => {
      if (step === 'take') invalidateFor('everything');
    },
  });
  const step = sending.variables?.step;
  const checked = step === 'check' ? sending.data : undefined;
  const next: Step = checked === undefined ? 'check' : 'take';
  const rows = Math.max(0, text.trimEnd().split('\n').length - 1);
  return (
    <Dialog
      title={words.bringOf[what]}
      open
      onClose={onClose}
      acts={
        <>
          {step === 'take' && sending.isSuccess ? null : (
            <Button
              big
              kind="main"
              disabled={text === '' || sending.isPending}
              onClick={() => sending.mutate({ step: next, key: newKey() })}
            >
              {next === 'check' ? words.check : words.keep}
            </Button>
          )}
          <Button big onClick={onClose}>
            {words.close}
          </Button>
        </>
      }
    >
      <div className="form">
        <p>
          {words.how[what]} {words.whole}
        </p>
        <Field label={words.file} {...(text === '' ? {} : { hint: words.fileHint(format.number(rows)) })} big>
          {(input) => (
            <input
              {...input}
              type="file"
              accept=".csv,.txt,text/csv,text/plain"
              onChange={({ target }) => {
                const [file] = target.files ?? [];
                sending.reset();
                if (file !== undefined) void file.text().then(setText);
              }}
            />
          )}
        </Field>
        {sending.isPending ? <p role="status">{step === 'check' ? words.checking : words.keeping}</p> : null}
        {sending.data === undefined ? null : <Said step={step} taken={sending.data} />}
        <Faults error={sending.error} />
      </div>
    </Dialog>
  );
}

function Said({ step, taken }: { readonly step: Step | undefined; readonly taken: FileTaken }) {
  const { storeFiles: words } = useWords();
  const { number } = useFormat();
  const { rows, added, changed, unchanged } = taken;
  return (
    <p role="status">
      {step === 'check' ? (
        words.would(number(rows), number(added), number(changed), number(unchanged))
      ) : (
        <b>{words.kept(number(added), number(changed))}</b>
      )}
    </p>
  );
}

function Faults({ error }: { readonly error: Error | null }) {
  const { storeFiles: words } = useWords();
  const faults = error instanceof RefusedError && error.code === 'csv-row' ? (error.problem.errors ?? []) : [];
  if (faults.length === 0) return <Refusal error={error} />;
  return <FaultTable faults={faults} title={words.wrong} where={words.where} what={words.what} />;
}

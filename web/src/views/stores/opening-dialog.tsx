import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { OpeningKept } from '#contracts/stock-books.ts';
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

type Step = 'check' | 'take';

/** Rows below the header, as a spreadsheet shows them. */
const rowsIn = (text: string): number => Math.max(0, text.trimEnd().split('\n').length - 1);

/** Opens the books with a file: checked first, with what it would bring or what is wrong with it, then kept whole. */
export function OpeningDialog({ onClose }: { readonly onClose: () => void }) {
  const { opening: words } = useWords().partForms;
  const { number } = useFormat();
  const [text, setText] = useState('');
  const sending = useMutation<OpeningKept, Error, { step: Step; key: string }>({
    mutationFn: ({ step, key }) =>
      send(`/stock-opening${step === 'check' ? '/check' : ''}`, undefined, { csv: text, key }),
    onSuccess: (_kept, { step }) => {
      if (step === 'take') invalidateFor('everything');
    },
  });
  const done = sending.variables?.step === 'take' ? sending.data : undefined;
  const checked = sending.variables?.step === 'check' ? sending.data : undefined;
  const step: Step = checked === undefined ? 'check' : 'take';
  return (
    <Dialog
      title={words.title}
      open
      onClose={onClose}
      acts={
        <>
          {done === undefined ? (
            <Button
              big
              kind="main"
              disabled={text === '' || sending.isPending}
              onClick={() => sending.mutate({ step, key: newKey() })}
            >
              {checked === undefined ? words.check : words.take}
            </Button>
          ) : null}
          <Button big onClick={onClose}>
            {words.close}
          </Button>
        </>
      }
    >
      <div className="form">
        <p>{words.how}</p>
        <Field label={words.file} {...(text === '' ? {} : { hint: words.fileHint(number(rowsIn(text))) })} big>
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
        <p role="status">
          {checked === undefined
            ? null
            : words.would(number(checked.lots), number(checked.parts), number(checked.pieces))}
          {done === undefined ? null : <b>{words.kept(number(done.lots), number(done.pieces))}</b>}
        </p>
        <Faults error={sending.error} />
      </div>
    </Dialog>
  );
}

function Faults({ error }: { readonly error: Error | null }) {
  const { opening: words } = useWords().partForms;
  const faults = error instanceof RefusedError && error.code === 'csv-row' ? (error.problem.errors ?? []) : [];
  if (faults.length === 0) return <Refusal error={error} />;
  return <FaultTable faults={faults} title={words.wrong} where={words.where} what={words.what} />;
}

import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import type { DraftKept } from '#contracts/spec-sheets.ts';
import { send } from '../../app/api.ts';
import { newKey } from '../../app/key.ts';
import { invalidateFor } from '../../app/query-client.ts';
import { Choice } from '../../kit/choice.tsx';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { FileField } from '../../kit/file-field.tsx';
import { useWords } from '../../words/words.tsx';
import { FaultList } from './fault-list.tsx';
import type { Draft } from './use-draft.ts';

type Way = 'adds' | 'replaces' | 'whole';
interface Sent {
  readonly text: string;
  readonly way: Way;
  readonly key: string;
}

const looksLikeJson = (text: string): boolean => text.trimStart().startsWith('{');

/** Sends the file as what it is said to be; JSON that is none is told before anything is sent. */
function sendFile({ revisionId, etag }: Draft, { text, way, key }: Sent, notJson: string): Promise<DraftKept> {
  const options = { key, ifMatch: etag };
  if (way !== 'whole') {
    const method = way === 'adds' ? 'PATCH' : 'PUT';
    return send(`/spec-revisions/${revisionId}/sheet.csv`, undefined, { ...options, method, csv: text });
  }
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    return Promise.reject(new Error(notJson));
  }
  return send(`/spec-revisions/${revisionId}/sheet.json`, document, { ...options, method: 'PUT' });
}

/** A file or a paste into the draft: all of it, or every fault at its row. */
export function SheetImportDialog({ draft, onClose }: { readonly draft: Draft; readonly onClose: () => void }) {
  const { file: words, close } = useWords().specs;
  const [text, setText] = useState('');
  const [way, setWay] = useState<Way>('adds');
  const sending = useMutation<DraftKept, Error, Sent>({
    mutationFn: (sent) => sendFile(draft, sent, words.notJson),
    onSuccess: () => {
      setText('');
      invalidateFor('everything');
    },
  });
  const take = (next: string) => {
    sending.reset();
    setText(next);
    if (looksLikeJson(next)) setWay('whole');
    else if (way === 'whole') setWay('adds');
  };
  return (
    <Dialog
      title={words.title}
      open
      onClose={onClose}
      acts={
        <DialogActs
          act={words.send}
          ready={text.trim() !== '' && !sending.isPending}
          onAct={() => sending.mutate({ text, way, key: newKey() })}
          close={close}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>{words.how}</p>
        <FileField
          label={words.pick}
          accept=".csv,.txt,.json,text/csv,text/plain,application/json"
          onFile={(file) => void file.text().then(take)}
        />
        <Field label={words.paste}>
          {(input) => (
            <textarea
              {...input}
              rows={6}
              spellCheck={false}
              className="num"
              value={text}
              onChange={({ target }) => take(target.value)}
            />
          )}
        </Field>
        <Choice
          label={words.way}
          value={way}
          onChange={setWay}
          options={(['adds', 'replaces', 'whole'] as const).map((value) => ({ value, label: words[value] }))}
        />
        {sending.data === undefined ? null : (
          <p role="status">
            <b>{words.kept(sending.data.dimensions, sending.data.figures)}</b>
          </p>
        )}
        <FaultList error={sending.error} title={words.wrong} />
      </div>
    </Dialog>
  );
}

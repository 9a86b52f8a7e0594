import { useNavigate } from '@tanstack/react-router';
import { useState } from 'react';
import type { DraftMade } from '#contracts/procedure-documents.ts';
import { useWrite } from '../../app/write.ts';
import { Dialog, DialogActs } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { FileField } from '../../kit/file-field.tsx';
import { useWords } from '../../words/words.tsx';
import { FaultList } from '../specs/fault-list.tsx';
import { usePlaceWords } from './place-words.ts';

function parsed(text: string): object | undefined {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null ? value : undefined;
  } catch {
    return undefined;
  }
}

/** A document, from a file or pasted: all of it becomes a draft, or every fault is told at its place. */
export function ImportProcedureDialog({ onClose }: { readonly onClose: () => void }) {
  const { procedures: words } = useWords();
  const navigate = useNavigate();
  const place = usePlaceWords();
  const writing = useWrite<DraftMade>();
  const [text, setText] = useState('');
  const [notJson, setNotJson] = useState(false);
  const take = (next: string) => {
    writing.clear();
    setNotJson(false);
    setText(next);
  };
  const send = () => {
    const body = parsed(text);
    setNotJson(body === undefined);
    if (body === undefined) return;
    writing.write(
      { path: '/procedures/import', body },
      ({ id }) => void navigate({ to: '/procedures/$versionId', params: { versionId: id } }),
    );
  };
  return (
    <Dialog
      title={words.import.title}
      open
      onClose={onClose}
      acts={
        <DialogActs
          act={words.import.go}
          ready={text.trim() !== '' && !writing.busy}
          onAct={send}
          close={words.cancel}
          onClose={onClose}
        />
      }
    >
      <div className="form">
        <p>{words.import.how}</p>
        <FileField
          label={words.import.file}
          accept=".json,application/json"
          onFile={(file) => void file.text().then(take)}
        />
        <Field label={words.import.paste} error={notJson ? words.import.notJson : null}>
          {(input) => (
            <textarea
              {...input}
              rows={6}
              value={text}
              spellCheck={false}
              onChange={({ target }) => take(target.value)}
            />
          )}
        </Field>
        <FaultList error={writing.error} title={words.import.wrong} place={place} />
      </div>
    </Dialog>
  );
}

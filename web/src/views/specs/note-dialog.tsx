import { useState } from 'react';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { FaultList } from './fault-list.tsx';
import { TextField } from './form-fields.tsx';
import { type Draft, useKeeping } from './use-draft.ts';

/** What a draft says of itself: its note, and whether its figures are invented. */
export function NoteDialog({ draft, onClose }: { readonly draft: Draft; readonly onClose: () => void }) {
  const { specs: words } = useWords();
  const [note, setNote] = useState(draft.document.note);
  const [figuresInvented, setInvented] = useState(draft.document.figuresInvented);
  const keeping = useKeeping(draft);
  return (
    <Dialog title={words.noteOpen} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          keeping.keep({ ...draft.document, note: note.trim(), figuresInvented }, onClose);
        }}
      >
        <TextField label={words.note} hint={words.noteHint} value={note} onChange={setNote} />
        <label className="check">
          <input type="checkbox" checked={figuresInvented} onChange={({ target }) => setInvented(target.checked)} />
          {words.inventedOf}
        </label>
        <FaultList error={keeping.error} title={words.form.wrong} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={keeping.busy}>
            {words.form.keep}
          </Button>
          <Button onClick={onClose}>{words.close}</Button>
        </div>
      </form>
    </Dialog>
  );
}

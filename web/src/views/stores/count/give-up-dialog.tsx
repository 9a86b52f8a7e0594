import { useState } from 'react';
import { Refusal } from '../../../app/refusal.tsx';
import { useWrite } from '../../../app/write.ts';
import { Button } from '../../../kit/button.tsx';
import { Dialog } from '../../../kit/dialog.tsx';
import { Field } from '../../../kit/field.tsx';
import { useWords } from '../../../words/words.tsx';

/** Ends a sheet that nobody will finish, with a reason. */
export function GiveUpDialog({ sheetId, onClose }: { readonly sheetId: string; readonly onClose: () => void }) {
  const { sheet: words } = useWords().counts;
  const writing = useWrite();
  const [reason, setReason] = useState('');
  return (
    <Dialog title={words.giveUp} open onClose={onClose}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (reason.trim() === '') return;
          writing.write({ path: `/count-sheets/${sheetId}/give-up`, body: { reason: reason.trim() } }, onClose);
        }}
      >
        <Field label={words.giveUpWhy} hint={words.giveUpHint}>
          {(input) => (
            <input {...input} maxLength={300} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" kind="main" disabled={reason.trim() === '' || writing.busy}>
            {words.giveUp}
          </Button>
          <Button onClick={onClose}>{words.cancel}</Button>
        </div>
      </form>
    </Dialog>
  );
}

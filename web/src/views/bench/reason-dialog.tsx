import { useState } from 'react';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { Field } from '../../kit/field.tsx';
import { useWords } from '../../words/words.tsx';

interface ReasonDialogProps {
  readonly title: string;
  readonly label: string;
  readonly go: string;
  readonly path: string;
  /** Of letters. */
  readonly most?: number;
  readonly bodyOf: (reason: string) => object;
  readonly onClose: () => void;
  readonly onDone: () => void;
}

/** An act that needs a reason, and is sent with it. */
export function ReasonDialog({ title, label, go, path, most = 500, bodyOf, onClose, onDone }: ReasonDialogProps) {
  const { mark: words } = useWords().procedure;
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const ready = reason.trim() !== '' && !writing.busy;
  return (
    <Dialog title={title} open onClose={onClose}>
      <form
        className="hands-form"
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) writing.write({ path, body: bodyOf(reason.trim()) }, onDone);
        }}
      >
        <Field label={label} big>
          {(input) => (
            <input {...input} maxLength={most} value={reason} onChange={({ target }) => setReason(target.value)} />
          )}
        </Field>
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button type="submit" big kind="main" disabled={!ready}>
            {go}
          </Button>
          <Button big onClick={onClose}>
            {words.cancel}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

import { useState } from 'react';
import type { EnginePage } from '#contracts/engines.ts';
import { Refusal } from '../../app/refusal.tsx';
import { useWrite } from '../../app/write.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { ReasonField } from './reason-field.tsx';

type Props = { readonly obligation: EnginePage['obligations'][number]; readonly onClose: () => void };

/** A lead's word that an obligation is met though no finding proves it. */
export function DischargeDialog({ obligation, onClose }: Props) {
  const words = useWords().engine;
  const [reason, setReason] = useState('');
  const writing = useWrite();
  const ready = reason.trim() !== '' && !writing.busy;
  return (
    <Dialog title={words.dischargeTitle} open onClose={onClose}>
      <form
        className="decide"
        onSubmit={(event) => {
          event.preventDefault();
          if (!ready) return;
          writing.write({ path: `/obligations/${obligation.id}/discharge`, body: { reason: reason.trim() } }, onClose);
        }}
      >
        <p>{obligation.words}</p>
        <ReasonField hint={words.dischargeHint} rows={3} reason={reason} onReason={setReason} />
        <Refusal error={writing.error} />
        <div className="dialog-acts">
          <Button onClick={onClose}>{words.cancel}</Button>
          <Button type="submit" kind="main" disabled={!ready}>
            {words.dischargeSend}
          </Button>
        </div>
      </form>
    </Dialog>
  );
}

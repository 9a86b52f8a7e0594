import { useState } from 'react';
import type { LabelAsked } from '#contracts/labels.ts';
import { Button } from '../../kit/button.tsx';
import { Dialog } from '../../kit/dialog.tsx';
import { useWords } from '../../words/words.tsx';
import { PrintForm } from './print-form.tsx';

interface LabelButtonProps {
  readonly labels: readonly LabelAsked[];
  readonly big?: boolean;
}

/** Prints the label of what stands beside it. */
export function LabelButton({ labels, big = false }: LabelButtonProps) {
  const words = useWords().labels;
  const [open, setOpen] = useState(false);
  return (
    <>
      <Button big={big} onClick={() => setOpen(true)}>
        {words.print(labels.length)}
      </Button>
      {open ? (
        <Dialog title={words.print(labels.length)} open onClose={() => setOpen(false)}>
          <PrintForm labels={labels} onClose={() => setOpen(false)} />
        </Dialog>
      ) : null}
    </>
  );
}

import { ReasonForm } from '../../app/reason-form.tsx';
import { Dialog } from '../../kit/dialog.tsx';
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

/** An act at the bench that needs a reason, asked for in a dialog. */
export function ReasonDialog({ title, onClose, ...form }: ReasonDialogProps) {
  const { mark: words } = useWords().procedure;
  return (
    <Dialog title={title} open onClose={onClose}>
      <ReasonForm
        {...form}
        big
        formClass="hands-form"
        actsClass="dialog-acts"
        cancel={words.cancel}
        onCancel={onClose}
      />
    </Dialog>
  );
}

import type { ReactNode } from 'react';
import { Dialog } from '../kit/dialog.tsx';
import { ReasonForm, type ReasonFormProps } from './reason-form.tsx';

interface ReasonDialogProps
  extends Omit<ReasonFormProps, 'main' | 'formClass' | 'actsClass' | 'lead' | 'onCancel' | 'onDone'> {
  readonly title: string;
  /** Said before the reason is asked for. */
  readonly children?: ReactNode;
  readonly onClose: () => void;
  /** Left out: it closes. */
  readonly onDone?: () => void;
}

/** An act that needs a reason, asked for in a dialog. */
export function ReasonDialog({ title, children, onClose, onDone = onClose, ...form }: ReasonDialogProps) {
  return (
    <Dialog title={title} open onClose={onClose}>
      <ReasonForm
        {...form}
        main
        formClass={form.big ? 'hands-form' : 'form'}
        actsClass="dialog-acts"
        lead={children}
        onCancel={onClose}
        onDone={onDone}
      />
    </Dialog>
  );
}

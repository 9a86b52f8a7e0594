import type { ReactNode } from 'react';
import { Dialog } from '../kit/dialog.tsx';
import { ReasonForm } from './reason-form.tsx';

interface ReasonDialogProps {
  readonly title: string;
  readonly label: string;
  readonly hint?: string;
  readonly go: string;
  readonly cancel: string;
  readonly path: string;
  /** Of letters. */
  readonly most?: number;
  /** Lines in sight, where more than one is wanted. */
  readonly rows?: number;
  /** For gloved hands. */
  readonly big?: boolean;
  readonly bodyOf: (reason: string) => object;
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

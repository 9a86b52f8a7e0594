import type { ReactNode } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { Button } from './button.tsx';
import { useKeptFocus } from './keep-focus.ts';

export type DialogProps = {
  readonly title: string;
  readonly open: boolean;
  /** Called for Escape and a tap beside it as well. */
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** Buttons at the foot. */
  readonly acts?: ReactNode;
};

/** A sheet over the view: holds focus, gives it back, closes by Escape. */
export function Dialog({ title, open, onClose, children, acts }: DialogProps) {
  return (
    <ModalOverlay
      className="dialog-back"
      isOpen={open}
      isDismissable
      onOpenChange={(stays) => (stays ? undefined : onClose())}
    >
      <Modal className="dialog-sheet">
        <Held>
          <Heading slot="title">{title}</Heading>
          <div>{children}</div>
          {acts === undefined ? null : <div className="dialog-acts">{acts}</div>}
        </Held>
      </Modal>
    </ModalOverlay>
  );
}

function Held({ children }: { readonly children: ReactNode }) {
  return <AriaDialog ref={useKeptFocus()}>{children}</AriaDialog>;
}

export type DialogActsProps = {
  readonly act: string;
  /** False while something has still to be said, or it is on its way. */
  readonly ready: boolean;
  readonly onAct: () => void;
  readonly close: string;
  readonly onClose: () => void;
};

/** The usual foot: the one thing the dialog is for, and leaving it. */
export function DialogActs({ act, ready, onAct, close, onClose }: DialogActsProps) {
  return (
    <>
      <Button kind="main" disabled={!ready} onClick={onAct}>
        {act}
      </Button>
      <Button onClick={onClose}>{close}</Button>
    </>
  );
}

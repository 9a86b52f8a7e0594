import type { ReactNode } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
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

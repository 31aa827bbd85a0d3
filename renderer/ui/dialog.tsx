import type { ReactNode } from 'react';
import { Dialog as AriaDialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { IconButton } from './button';

export interface DialogProps {
  readonly title: string;
  readonly onClose: () => void;
  readonly children: ReactNode;
  readonly size?: 'small' | 'medium' | 'large' | 'huge';
  /** Buttons along the foot. */
  readonly footer?: ReactNode;
  /** An alert wants an answer: pressing beside it does not close it. */
  readonly isAlert?: boolean;
}

export function Dialog({ title, onClose, children, size = 'small', footer, isAlert = false }: DialogProps) {
  return (
    <ModalOverlay
      className="modal-overlay"
      isOpen
      isDismissable={!isAlert}
      onOpenChange={(isOpen) => {
        if (!isOpen) onClose();
      }}
    >
      <Modal className={`modal is-${size}`}>
        <AriaDialog className="dialog" role={isAlert ? 'alertdialog' : 'dialog'}>
          <header className="dialog-head">
            <Heading slot="title">{title}</Heading>
            <IconButton icon="close" label="Close" onPress={onClose} />
          </header>
          <div className="dialog-body">{children}</div>
          {footer !== undefined && <footer className="dialog-foot">{footer}</footer>}
        </AriaDialog>
      </Modal>
    </ModalOverlay>
  );
}

/** A dialog over the screen: a heading, what it says, and its buttons; Escape always leaves it unchanged. */

import type { ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';
import { useLoneEscape } from './hooks/use-lone-escape.ts';

interface Props {
  readonly title: string;
  readonly isOpen: boolean;
  readonly onClose: () => void;
  readonly children: ReactNode;
  /** Buttons, the safest one first. */
  readonly actions?: ReactNode;
  readonly size?: 'small' | 'large';
  /** False where leaving without an answer would lose something. */
  readonly canDismiss?: boolean;
}

export function ModalDialog({ title, isOpen, onClose, children, actions, size = 'small', canDismiss = true }: Props) {
  const overlay = useLoneEscape(isOpen && canDismiss, onClose);
  return (
    <ModalOverlay
      ref={overlay}
      className="modal-overlay"
      isOpen={isOpen}
      isDismissable={canDismiss}
      isKeyboardDismissDisabled={!canDismiss}
      onOpenChange={(open) => {
        if (!open) onClose();
      }}
    >
      <Modal className={`modal modal-${size}`}>
        <Dialog className="dialog">
          <Heading slot="title" level={2}>
            {title}
          </Heading>
          <div className="dialog-body">{children}</div>
          {actions ? <div className="actions">{actions}</div> : null}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

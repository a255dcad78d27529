/** A sheet of paper laid over the desk: keeps the focus while it lies there, Escape takes it away. */
import type { ReactElement, ReactNode } from 'react';
import { Dialog, Heading, Modal, ModalOverlay } from 'react-aria-components';

export function Laid({ title, isOpen, onClose, children, wide = false, mustAnswer = false }: {
  readonly title: string; readonly isOpen: boolean; readonly onClose: () => void; readonly children: ReactNode; readonly wide?: boolean;
  /** a click beside it does not take it away */
  readonly mustAnswer?: boolean;
}): ReactElement {
  return (
    <ModalOverlay className="laid-over" isOpen={isOpen} onOpenChange={(open) => { if (!open) onClose(); }} isDismissable={!mustAnswer}>
      <Modal className={wide ? 'laid wide' : 'laid'}>
        <Dialog className="laid-sheet">
          <div className="laid-head"><Heading slot="title" level={2}>{title}</Heading><button type="button" className="quiet" onClick={onClose}>Close</button></div>
          {children}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

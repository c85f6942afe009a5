/** Starting a header from anywhere in the program: a name and Enter. */

import { useEffect, useState } from 'react';
import { useAsk } from '../host/host-bridge.ts';
import { useHeaderActs } from '../session/header-acts.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import { freeHeaderName, NewHeaderLine } from './new-header-line.tsx';

interface Props {
  readonly onOpened: (opened: OpenedHeader) => void;
  readonly onClose: () => void;
}

export function NewHeaderDialog({ onOpened, onClose }: Props) {
  const ask = useAsk();
  const acts = useHeaderActs();
  const [offered, setOffered] = useState('Header 1');
  useEffect(() => {
    void ask('listHeaders', { place: 'bench' }).then((answer) => {
      if (answer.ok) setOffered(freeHeaderName(answer.value.headers.map((header) => header.name)));
    });
  }, [ask]);
  const create = async (name: string) => {
    const opened = await acts.create(name, 'blank');
    onClose();
    if (opened !== null) onOpened(opened);
  };
  return (
    <ModalDialog title="New header" isOpen onClose={onClose}>
      <NewHeaderLine offered={offered} autoFocus onCreate={(name) => void create(name)} />
    </ModalDialog>
  );
}

/** Backups while the program runs: make one now, or go back to one after seeing what that means. */

import { useCallback, useEffect, useState } from 'react';
import { useAsk } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import { type Backup, BackupList } from './backup-list.tsx';
import type { Start } from './cannot-open.tsx';

interface Props {
  /** What is still held must be in the file that is set aside. */
  readonly beforeRestoring: () => Promise<void>;
  readonly onClose: () => void;
  /** Everything shown is older from here on, so the program starts anew with it. */
  readonly onRestored: (start: Start) => void;
}

export function BackupsDialog({ beforeRestoring, onClose, onRestored }: Props) {
  const ask = useAsk();
  const [backups, setBackups] = useState<readonly Backup[]>([]);
  const [chosen, setChosen] = useState<string | null>(null);
  const [words, setWords] = useState('');
  const read = useCallback(async () => {
    const answer = await ask('listBackups', {});
    if (answer.ok) setBackups(answer.value.backups);
    else setWords(answer.words);
  }, [ask]);
  useEffect(() => void read(), [read]);
  const make = async () => {
    const answer = await ask('makeBackup', {});
    setWords(answer.ok ? 'A backup was made.' : answer.words);
    await read();
  };
  const restore = async (name: string) => {
    await beforeRestoring();
    const answer = await ask('restoreBackup', { name });
    if (answer.ok) onRestored(answer.value);
    else setWords(answer.words);
  };
  return (
    <ModalDialog title="Backups" isOpen onClose={onClose} actions={<Button onPress={onClose}>Close</Button>}>
      <p role="status">{words}</p>
      {chosen === null ? (
        <>
          <p>Evenrun makes backups on its own. Restoring one brings every header back to how it was then.</p>
          <div className="actions">
            <Button look="main" onPress={() => void make()}>
              Make a backup now
            </Button>
          </div>
          <BackupList backups={backups} onRestore={setChosen} />
        </>
      ) : (
        <RestoreQuestion onKeep={() => setChosen(null)} onRestore={() => void restore(chosen)} />
      )}
    </ModalDialog>
  );
}

function RestoreQuestion({ onKeep, onRestore }: { readonly onKeep: () => void; readonly onRestore: () => void }) {
  return (
    <>
      <p>
        Work done after this backup will not be in the program any more. It is not lost: the present file is set aside
        first and stays in this list.
      </p>
      <div className="actions">
        <Button onPress={onKeep}>Do not restore</Button>
        <Button look="main" onPress={onRestore}>
          Restore this backup
        </Button>
      </div>
    </>
  );
}

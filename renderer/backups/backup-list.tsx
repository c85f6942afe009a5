/** The backups there are, in the order in which the store lists them (newest first), each with a way back to it. */

import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { Button } from '../ui/button.tsx';
import { showBytes, showTime } from '../ui/words/spoken.ts';

export type Backup = ResponseOf<'makeBackup'>;

const KIND_WORDS: Readonly<Record<Backup['kind'], string>> = {
  recent: 'made while working',
  daily: 'of the day',
  beforeMigration: 'made before an update of Evenrun',
  setAside: 'set aside when a backup was restored',
  damaged: 'made while part of what is kept was damaged',
};

interface Props {
  readonly backups: readonly Backup[];
  readonly onRestore: (name: string) => void;
}

export function BackupList({ backups, onRestore }: Props) {
  if (backups.length === 0) return <p>There are no backups in this folder yet.</p>;
  return (
    <ul className="plain-list">
      {backups.map((backup) => (
        <li key={backup.name} className="header-row">
          <div className="header-row-main">
            <p>{showTime(backup.takenAt)}</p>
            <p className="muted">
              {KIND_WORDS[backup.kind]}, {showBytes(backup.bytes)}
            </p>
          </div>
          <Button
            aria-label={`Restore the backup of ${showTime(backup.takenAt)}, ${KIND_WORDS[backup.kind]}`}
            onPress={() => onRestore(backup.name)}
          >
            Restore
          </Button>
        </li>
      ))}
    </ul>
  );
}

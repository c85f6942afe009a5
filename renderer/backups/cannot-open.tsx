/** What is shown when the store cannot be opened: what happened, what is safe, and the backups to go back to. */

import { useState } from 'react';
import { describeProblem, type StorageFault } from '../../core/index.ts';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { useAsk } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { BackupList } from './backup-list.tsx';
import { RestoreEverything } from './restore-everything.tsx';

export type Start = ResponseOf<'start'>;
export type FailedStart = Extract<Start, { state: 'cannotOpen' }>;

/** What has become of the work, as far as the kind of failure tells. */
export function whatIsSafe(fault: StorageFault | null): string {
  switch (fault) {
    case 'diskFull':
    case 'readOnly':
    case 'noPermission':
    case 'busy':
    case 'ioError':
    case 'pathTooLong':
      return 'Your headers are where they were: the file was not changed. Fix the cause named above, then try again.';
    case 'newerVersion':
      return 'Your headers are where they were: the file was not changed. Use the newer Evenrun that wrote it, or go back to a backup that this one can read.';
    case 'corrupt':
    case 'notOurs':
    case 'missing':
    case null:
      return 'Each backup below was whole when it was made. Restoring one sets the present file aside and does not delete it.';
  }
}

interface Props {
  readonly start: FailedStart;
  readonly onStart: (start: Start) => void;
}

export function CannotOpen({ start, onStart }: Props) {
  const ask = useAsk();
  const [words, setWords] = useState<string | null>(null);
  const [isRestoring, setRestoring] = useState(false);
  const take = (answer: Awaited<ReturnType<typeof ask<'start'>>>) => {
    if (answer.ok) onStart(answer.value);
    else setWords(answer.words);
  };
  const fault = start.problem.kind === 'storage' ? start.problem.fault : null;
  return (
    <main className="page">
      <div className="prose">
        <h1>Your headers could not be opened</h1>
        <p>{describeProblem(start.problem)}</p>
        <p>{whatIsSafe(fault)}</p>
        <p className="muted">They are in {start.dataFolder}.</p>
        <div className="actions">
          <Button look="main" onPress={async () => take(await ask('start', {}))}>
            Try again
          </Button>
        </div>
        <p role="alert">{words}</p>
      </div>
      <h2>Backups</h2>
      <div className="actions">
        <Button onPress={() => setRestoring(true)}>Restore everything from a file</Button>
      </div>
      {isRestoring ? (
        <RestoreEverything
          before={async () => undefined}
          onClose={() => setRestoring(false)}
          onRestored={(restored) => {
            setRestoring(false);
            onStart(restored);
          }}
        />
      ) : null}
      <BackupList backups={start.backups} onRestore={async (name) => take(await ask('restoreBackup', { name }))} />
    </main>
  );
}

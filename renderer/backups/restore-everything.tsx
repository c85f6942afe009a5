/** Restores everything from a file of the person's own: read and proven first, and only after a yes put in the place of what is here. */

import { useState } from 'react';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { askForFile } from '../host/files.ts';
import { useAsk } from '../host/host-bridge.ts';
import { type DoneWork, useLongWork } from '../host/long-work.ts';
import { Button } from '../ui/button.tsx';
import { useOneAtATime } from '../ui/hooks/use-one-at-a-time.ts';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import { showTime } from '../ui/words/spoken.ts';
import { WorkProgress } from '../ui/work-progress.tsx';
import { damageWords, fileRefusal, heldWords, stageWords } from './everything-words.ts';

type Start = ResponseOf<'start'>;
type Proven = Extract<DoneWork, { kind: 'proven' }>;

interface Props {
  /** What is still held must be in the file that is set aside. */
  readonly before: () => Promise<void>;
  readonly onClose: () => void;
  readonly onRestored: (start: Start) => void;
}

/** From the choice of a file to its taking the place of what is here. */
function useRestore({ before, onRestored }: Pick<Props, 'before' | 'onRestored'>) {
  const ask = useAsk();
  const { progress, run, stop } = useLongWork();
  const [words, setWords] = useState('');
  const [proven, setProven] = useState<Proven | null>(null);
  const choose = async () => {
    const file = await askForFile('.sqlite,application/vnd.sqlite3');
    if (file === null) return;
    setWords('');
    if (file.size === 0) return setWords('This file is empty. Nothing was changed.');
    const ended = await run(() => ask('beginRestore', { bytes: file.size }), file);
    if (ended.kind === 'refused') setWords(fileRefusal(ended.answer));
    else if (ended.kind === 'stopped') setWords('Stopped. Nothing was changed.');
    else if (ended.kind === 'done' && ended.done.kind === 'proven') setProven(ended.done);
  };
  const [isRestoring, restore] = useOneAtATime(async () => {
    if (proven === null) return;
    await before();
    const answer = await ask('restoreGiven', { givenId: proven.givenId });
    if (answer.ok) onRestored(answer.value);
    else setWords(answer.words);
  });
  const giveUp = () => {
    stop();
    if (proven !== null) void ask('dropGiven', { givenId: proven.givenId });
  };
  return { progress, words, proven, isRestoring, choose, restore, stop, giveUp };
}

export function RestoreEverything({ onClose, ...props }: Props) {
  const { progress, words, proven, isRestoring, choose, restore, stop, giveUp } = useRestore(props);
  const close = () => {
    giveUp();
    onClose();
  };
  const go = proven === null ? () => void choose() : restore;
  return (
    <ModalDialog
      title="Restore everything from a file"
      isOpen
      onClose={close}
      canDismiss={!isRestoring}
      actions={
        <>
          <Button onPress={close} isDisabled={isRestoring}>
            {proven === null ? 'Close' : 'Do not restore'}
          </Button>
          {progress === null ? (
            <Button look="main" onPress={go} isDisabled={isRestoring}>
              {proven === null ? 'Choose a file' : 'Restore everything'}
            </Button>
          ) : null}
        </>
      }
    >
      {proven === null ? (
        <p>
          Choose a file that “Back up everything to a file” made. It is read and proven before anything changes, and you
          are asked once more.
        </p>
      ) : (
        <ProvenWords proven={proven} />
      )}
      {progress === null ? null : (
        <WorkProgress done={progress.done} of={progress.of} {...stageWords(progress)} onStop={stop} />
      )}
      <p role="status">{words}</p>
    </ModalDialog>
  );
}

function ProvenWords({ proven }: { readonly proven: Proven }) {
  const damage = damageWords(proven);
  return (
    <>
      <p>
        The file is whole: {heldWords(proven)}
        {proven.changedAt === null ? '' : `, last changed ${showTime(proven.changedAt)}`}.
      </p>
      {damage === null ? null : <p>{damage}</p>}
      <p>
        Restoring it replaces everything that is here: headers, archive, shelf and preferences. What is here now is set
        aside first and stays in the list of backups.
      </p>
    </>
  );
}

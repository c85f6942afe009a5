/** Backs up everything into one file of the person's own: copied, proven, and only then said to be done. */

import { useState } from 'react';
import { downloadBlob } from '../host/files.ts';
import { useAsk, useBridge } from '../host/host-bridge.ts';
import { type DoneWork, useLongWork } from '../host/long-work.ts';
import { Button } from '../ui/button.tsx';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import { WorkProgress } from '../ui/work-progress.tsx';
import { damageWords, heldWords, stageWords } from './everything-words.ts';

type BackedUp = Extract<DoneWork, { kind: 'backedUp' }>;

interface Props {
  /** Brings in all that the page still holds. */
  readonly before: () => Promise<void>;
  readonly onClose: () => void;
}

export function BackUpEverything({ before, onClose }: Props) {
  const ask = useAsk();
  const { host } = useBridge();
  const { progress, run, stop } = useLongWork();
  const [words, setWords] = useState('');
  const [done, setDone] = useState<BackedUp | null>(null);
  const begin = async () => {
    setWords('');
    const ended = await run(async () => {
      await before();
      return ask('beginBackup', {});
    });
    if (ended.kind === 'refused') setWords(ended.answer.words);
    else if (ended.kind === 'stopped') setWords('Stopped. No file was written.');
    else if (ended.kind === 'done' && ended.done.kind === 'backedUp') {
      setDone(ended.done);
      setWords(doneWords(ended.done, ended.parts));
    }
  };
  const close = () => {
    stop();
    onClose();
  };
  const damage = done === null ? null : damageWords(done);
  return (
    <ModalDialog
      title="Back up everything to a file"
      isOpen
      onClose={close}
      actions={
        <>
          <Button onPress={close}>Close</Button>
          {done === null && progress === null ? (
            <Button look="main" onPress={() => void begin()}>
              Back up everything
            </Button>
          ) : null}
        </>
      }
    >
      {done === null ? (
        <p>
          All headers with their history and pictures, the shelf and the preferences go into one file
          {host === 'electron' ? ' in a place that you choose' : ' that your browser saves'}: keep it on another disk.
          The file is opened and every header in it read before this says that it is done.
        </p>
      ) : null}
      {progress === null ? null : (
        <WorkProgress done={progress.done} of={progress.of} {...stageWords(progress)} onStop={stop} />
      )}
      <p role="status">{words}</p>
      {damage === null ? null : <p role="alert">{damage}</p>}
    </ModalDialog>
  );
}

function doneWords(done: BackedUp, parts: readonly Blob[]): string {
  const held = heldWords(done);
  if (done.fileName !== null) return `Backed up to ${done.fileName}, and proven: ${held}.`;
  const fileName = `evenrun-${new Date().toISOString().slice(0, 10)}.sqlite`;
  downloadBlob(fileName, new Blob([...parts], { type: 'application/vnd.sqlite3' }));
  return `Proven, and handed to the browser to save as ${fileName}: ${held}.`;
}

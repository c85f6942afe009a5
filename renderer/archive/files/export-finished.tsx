/** Exports finished headers into one file, with how far it is, and what was left out and why. */

import { useState } from 'react';
import { describeProblem } from '../../../core/index.ts';
import { downloadBlob } from '../../host/files.ts';
import { useAsk } from '../../host/host-bridge.ts';
import { type DoneWork, useLongWork } from '../../host/long-work.ts';
import { Button } from '../../ui/button.tsx';
import { ModalDialog } from '../../ui/modal-dialog.tsx';
import { countOf, showBytes } from '../../ui/words/spoken.ts';
import { WorkProgress } from '../../ui/work-progress.tsx';

type Exported = Extract<DoneWork, { kind: 'exported' }>;

interface Props {
  /** Null: all of the archive. */
  readonly headerIds: readonly string[] | null;
  readonly onClose: () => void;
}

export function ExportFinished({ headerIds, onClose }: Props) {
  const ask = useAsk();
  const { progress, run, stop } = useLongWork();
  const [words, setWords] = useState('');
  const [done, setDone] = useState<Exported | null>(null);
  const one = headerIds?.length === 1;
  const begin = async () => {
    setWords('');
    const ended = await run(() => ask('beginExport', { headerIds: headerIds === null ? null : [...headerIds] }));
    if (ended.kind === 'refused') setWords(ended.answer.words);
    else if (ended.kind === 'stopped') setWords('Stopped. No file was written.');
    else if (ended.kind === 'done' && ended.done.kind === 'exported') {
      setDone(ended.done);
      setWords(exportedWords(ended.done, saved(ended.done, ended.parts)));
    }
  };
  const close = () => {
    stop();
    onClose();
  };
  return (
    <ModalDialog
      title={one ? 'Export this finished header' : 'Export finished headers'}
      isOpen
      onClose={close}
      actions={
        <>
          <Button onPress={close}>Close</Button>
          {done === null && progress === null ? (
            <Button look="main" onPress={() => void begin()}>
              Export
            </Button>
          ) : null}
        </>
      }
    >
      {done === null ? (
        <p>
          {one ? 'The header goes' : 'All finished headers go, a line each,'} into an open text file with figures, cut
          plans, readings and pictures. Evenrun on another computer brings {one ? 'it' : 'them'} back unchanged. Headers
          in the bin are left out.
        </p>
      ) : null}
      {progress === null ? null : (
        <WorkProgress
          words="Writing"
          {...progress}
          figure={progress.of === 0 ? '' : `${progress.done} of ${countOf(progress.of, 'header')}`}
          onStop={stop}
        />
      )}
      <p role="status">{words}</p>
      {done === null || done.leftOut.length === 0 ? null : <LeftOut leftOut={done.leftOut} />}
    </ModalDialog>
  );
}

const FILE_NAME = 'Finished headers.finished.jsonl';

/** Null: there is nothing to save. */
function saved({ fileName, headers }: Exported, parts: readonly Blob[]): string | null {
  if (headers === 0 || fileName !== null) return fileName;
  downloadBlob(FILE_NAME, new Blob([...parts], { type: 'application/jsonl' }));
  return FILE_NAME;
}

function exportedWords({ headers, bytes, leftOut }: Exported, fileName: string | null): string {
  if (headers === 0) return leftOut.length > 0 ? 'Nothing was exported.' : 'There is no finished header to export yet.';
  return `${countOf(headers, 'finished header')} exported to ${fileName}, ${showBytes(bytes)}.`;
}

function LeftOut({ leftOut }: Pick<Exported, 'leftOut'>) {
  return (
    <>
      <h3>Left out</h3>
      <ul>
        {leftOut.map(({ name, problem }, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list never changes
          <li key={at}>
            {problem.kind === 'alteredHeader' ? '' : `${name}: `}
            {describeProblem(problem)}
          </li>
        ))}
      </ul>
    </>
  );
}

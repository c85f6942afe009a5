/** Finishing a header: what that means, said before it is done, because it cannot be taken back. */

import { useMemo, useState } from 'react';
import { finishHeaderEdit, formatLength, headerClearances, matchHeader } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import { useNotice } from '../ui/notices.tsx';
import { finishNotes } from '../ui/words/finish-notes.ts';
import { wordsFor } from '../ui/words/problem-words.ts';
import { countOf } from '../ui/words/spoken.ts';

interface Props {
  readonly session: HeaderSession;
  readonly onClose: () => void;
}

export function FinishDialog({ session, onClose }: Props) {
  const { header, report } = useSession(session, (state) => state);
  const say = useNotice();
  const [words, setWords] = useState<string | null>(null);
  const notes = useMemo(() => finishNotes(header, report, headerClearances(header).tight), [header, report]);
  // In a finished header nothing counts as still being built: what is asked about is what goes into the archive.
  const { spreadMm } = matchHeader({ ...header, state: 'finished' });
  const finish = async () => {
    const done = session.apply(finishHeaderEdit());
    if (!done.ok) return setWords(wordsFor(done.problems));
    onClose();
    await session.flush();
    say({ text: `${header.name} is finished and in the archive.` });
  };
  return (
    <ModalDialog
      title={`Finish ${header.name}?`}
      isOpen
      onClose={onClose}
      actions={
        <>
          <Button onPress={onClose}>Keep working on it</Button>
          <Button look="main" onPress={() => void finish()}>
            Finish it
          </Button>
        </>
      }
    >
      <p>
        A finished header goes into the archive with its figures, cut plans and pictures, and never changes again, not
        even by undo. Work goes on in a copy: open it from the archive as a new header.
      </p>
      <p>
        {countOf(report.primaries.length, 'primary', 'primaries')}
        {spreadMm === null ? '' : ', spread '}
        {spreadMm === null ? null : <FigureText text={formatLength(spreadMm, header.settings.display)} />}.
      </p>
      {notes.length === 0 ? null : (
        <>
          <h3>Check first</h3>
          <ul>
            {notes.map((note) => (
              <li key={note}>
                <FigureText text={note} />
              </li>
            ))}
          </ul>
        </>
      )}
      {words === null ? null : <p role="alert">{words}</p>}
    </ModalDialog>
  );
}

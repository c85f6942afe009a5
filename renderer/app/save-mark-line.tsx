/** Whether the work is safe, in words, and only ever what the store has said. */

import type { HeaderSession } from '../session/header-session.ts';
import type { SaveMark } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';

export function saveWords(mark: SaveMark): string {
  switch (mark.kind) {
    case 'saved':
      return 'All saved';
    case 'saving':
      return 'Saving…';
    case 'notSaved':
      return `Not saved: ${mark.reason}`;
  }
}

export function SaveMarkLine({ session }: { readonly session: HeaderSession }) {
  const mark = useSession(session, (state) => state.save);
  return (
    <>
      <p className="bar-save" data-save={mark.kind}>
        {saveWords(mark)}
      </p>
      {/* That all is well need not be said at every entry; that it is not must be. */}
      {mark.kind === 'notSaved' ? (
        <>
          <p role="alert" className="visually-hidden">
            {saveWords(mark)}
          </p>
          <Button onPress={() => session.retryNow()}>Try again</Button>
        </>
      ) : null}
    </>
  );
}

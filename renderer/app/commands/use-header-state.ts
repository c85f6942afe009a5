/** What the commands need to know of the open header, if there is one. */

import { useSyncExternalStore } from 'react';
import type { HeaderSession } from '../../session/header-session.ts';
import { type SessionState, takesNoSteps } from '../../session/session-state.ts';
import { whyNotFinish } from '../../ui/words/finish-notes.ts';

export interface HeaderState {
  readonly name: string | null;
  readonly undoLabel: string | null;
  readonly redoLabel: string | null;
  readonly isFinished: boolean;
  /** Why the header cannot be finished now; null when it can, or when it is finished already. */
  readonly notFinish: string | null;
}

const NONE: HeaderState = { name: null, undoLabel: null, redoLabel: null, isFinished: false, notFinish: null };
const never = () => () => undefined;

export function useHeaderState(session: HeaderSession | null): HeaderState {
  return {
    name: usePart(session, (state) => state.header.name) ?? NONE.name,
    undoLabel: usePart(session, (state) => state.undoLabel) ?? NONE.undoLabel,
    redoLabel: usePart(session, (state) => state.redoLabel) ?? NONE.redoLabel,
    isFinished: usePart(session, takesNoSteps) ?? NONE.isFinished,
    notFinish: usePart(session, (state) => whyNotFinish(state.header)) ?? NONE.notFinish,
  };
}

/** Each part on its own: the save mark changes twice an edit and concerns no command. */
function usePart<Part extends string | boolean | null>(
  session: HeaderSession | null,
  select: (state: SessionState) => Part,
): Part | null {
  return useSyncExternalStore(session?.subscribe ?? never, () =>
    session === null ? null : select(session.getState()),
  );
}

/** What the commands need to know of the open header, if there is one. */

import { useCallback, useSyncExternalStore } from 'react';
import { whyNotFinish } from './headers/finish-notes.ts';
import type { HeaderSession } from './session/header-session.ts';

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
  const read = useCallback(() => session?.getState() ?? null, [session]);
  const state = useSyncExternalStore(session?.subscribe ?? never, read);
  if (state === null) return NONE;
  return {
    name: state.header.name,
    undoLabel: state.undoLabel,
    redoLabel: state.redoLabel,
    isFinished: state.header.state === 'finished',
    notFinish: whyNotFinish(state.header),
  };
}

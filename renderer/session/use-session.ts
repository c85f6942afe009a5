/** How components read an open header. */

import { useEffect, useSyncExternalStore } from 'react';
import { oneAtATime } from '../host/one-at-a-time.ts';
import { afterPaint } from '../ui/after-paint.ts';
import type { HeaderSession } from './header-session.ts';
import type { SessionState } from './session-state.ts';

const LOOK_EVERY_MS = 2_000;

/** The session's state, or the part of it that `select` picks; renders again only when that part changes. */
export function useSession<Part>(session: HeaderSession, select: (state: SessionState) => Part): Part {
  const read = () => select(session.getState());
  return useSyncExternalStore(session.subscribe, read, read);
}

/** Notices changes made by other windows while this page can be seen. */
export function useForeignChanges(session: HeaderSession): void {
  useEffect(() => {
    const look = oneAtATime(async () => {
      if (document.visibilityState === 'visible') await session.lookForChanges();
    });
    // The screen before may have been the shelf, where a cut plan is taken back with the pieces that it cut.
    const callOff = afterPaint(look);
    const timer = setInterval(look, LOOK_EVERY_MS);
    document.addEventListener('visibilitychange', look);
    return () => {
      callOff();
      clearInterval(timer);
      document.removeEventListener('visibilitychange', look);
    };
  }, [session]);
}

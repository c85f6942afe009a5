/** Brings in what is held when the page is hidden or closed, and asks first when something is not on disk yet. */

import { useCallback, useEffect } from 'react';
import type { HostBridge } from '../../../electron/bridge/contract.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { keepUnsaved } from '../../session/unsaved-steps.ts';

/** Leaving a field accepts what it holds: shelf cells and names listen for that. */
function leaveField(): void {
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
}

/** What cannot be saved outlives the page, in its tab: it may be loaded again while the host is away. */
function useUnsavedKept(session: HeaderSession | null): void {
  useEffect(() => {
    if (session === null) return undefined;
    // Steps on their way for a moment are not worth a write each.
    let isKept = false;
    const keep = () => {
      const isUnsaved = session.getState().save.kind === 'notSaved';
      if (isUnsaved || isKept) keepUnsaved(session, window.sessionStorage);
      isKept = isUnsaved;
    };
    const leave = () => keepUnsaved(session, window.sessionStorage);
    const stop = session.subscribe(keep);
    window.addEventListener('pagehide', leave);
    return () => {
      stop();
      window.removeEventListener('pagehide', leave);
    };
  }, [session]);
}

/** Returns the act that brings everything in; it ends when all is on disk. */
export function useSafeLeaving(bridge: HostBridge, session: HeaderSession | null): () => Promise<void> {
  const flush = useCallback(async () => {
    leaveField();
    await session?.flush();
  }, [session]);
  useUnsavedKept(session);
  useEffect(() => {
    const onHide = () => {
      if (document.visibilityState === 'hidden') void session?.flush();
    };
    const onLeave = (event: BeforeUnloadEvent) => {
      void flush();
      // The shell asks for a flush of its own and waits; a browser can only ask the person to.
      if (bridge.host === 'browser' && session !== null && session.getState().save.kind !== 'saved')
        event.preventDefault();
    };
    document.addEventListener('visibilitychange', onHide);
    window.addEventListener('beforeunload', onLeave);
    return () => {
      document.removeEventListener('visibilitychange', onHide);
      window.removeEventListener('beforeunload', onLeave);
    };
  }, [bridge, session, flush]);
  return flush;
}

/** Brings in what is held when the page is hidden or closed, and asks first when something is not on disk yet. */

import { useCallback, useEffect } from 'react';
import type { HostBridge } from '../../../electron/bridge/contract.ts';
import type { HeaderSession } from '../../session/header-session.ts';

/** Leaving a field accepts what it holds: shelf cells and names listen for that. */
function leaveField(): void {
  if (document.activeElement instanceof HTMLElement) document.activeElement.blur();
}

/** Returns the act that brings everything in; it ends when all is on disk. */
export function useSafeLeaving(bridge: HostBridge, session: HeaderSession | null): () => Promise<void> {
  const flush = useCallback(async () => {
    leaveField();
    await session?.flush();
  }, [session]);
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

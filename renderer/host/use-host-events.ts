/** What the host tells the page: a menu item, a file from the system, the window about to close. */

import { useEffect, useRef } from 'react';
import type { CommandId } from '../../electron/bridge/commands.ts';
import type { HostEvent, Unsaved } from '../../electron/bridge/contract.ts';
import { answerFlush } from './answer-flush.ts';
import { useBridge } from './host-bridge.ts';

interface Acts {
  readonly command: (id: CommandId) => void;
  readonly openHeader: (headerId: string) => void;
  /** Brings in all that is held; resolves when it is on disk. */
  readonly flush: () => Promise<void>;
  /** What is not on disk; null when all is. */
  readonly unsaved: () => Unsaved | null;
  readonly openFile: (file: { readonly fileName: string; readonly content: string }) => void;
}

export function useHostEvents(acts: Acts): void {
  const bridge = useBridge();
  const latest = useRef(acts);
  useEffect(() => {
    latest.current = acts;
  });
  useEffect(() => {
    const listen = (event: HostEvent) => {
      switch (event.kind) {
        case 'command':
          return latest.current.command(event.command);
        case 'openHeader':
          return latest.current.openHeader(event.headerId);
        case 'openFile':
          return latest.current.openFile(event);
        case 'flush':
          void answerFlush(bridge, latest.current);
      }
    };
    return bridge.onEvent(listen);
  }, [bridge]);
}

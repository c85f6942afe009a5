/** The one header that this window has open: opening it, keeping it while other screens are shown, leaving it safely. */

import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { HostBridge } from '../../../electron/bridge/contract.ts';
import { type Answer, askHost } from '../../host/host-bridge.ts';
import { HeaderSession } from '../../session/header-session.ts';
import { pageParts } from '../../session/session-parts.ts';
import type { OpenedHeader } from '../../session/session-state.ts';
import { setAsideUnsaved } from '../../session/unsaved-steps.ts';

export type OpenHeaderState =
  | { readonly kind: 'none' }
  | { readonly kind: 'opening'; readonly headerId: string }
  | { readonly kind: 'open'; readonly session: HeaderSession }
  | { readonly kind: 'failed'; readonly headerId: string; readonly words: string };

export interface OpenHeader {
  readonly state: OpenHeaderState;
  /** The header that was on the bench last, in this window or before it; null when it is there no more. */
  readonly lastHeaderId: string | null;
  /** Why the header cannot be left now, in words; null when it can. */
  readonly whyItMustStay: () => string | null;
  readonly open: (headerId: string) => Promise<void>;
  /** Takes over a header that a call has just answered with. */
  readonly adopt: (opened: OpenedHeader) => void;
  /** Puts the session away without waiting: for a header that is no longer there. */
  readonly drop: () => void;
}

/** Steps that are not on disk would go out of sight with their header, so it stays until they are. */
function reasonToStay(session: HeaderSession | null): string | null {
  if (session === null) return null;
  const { save, header, conflict } = session.getState();
  if (conflict !== null)
    return `${header.name} was changed in another window: choose first which version to go on with.`;
  return save.kind === 'notSaved' ? `${header.name} has steps that are not saved: ${save.reason}` : null;
}

function putAway(session: HeaderSession | null): void {
  if (session === null) return;
  void session.flush().then(() => session.close());
}

/** A header that was asked for before there was anything to show it in. */
export interface AskedAhead {
  readonly headerId: string;
  readonly answer: Promise<Answer<'openHeader'>>;
}

interface AtStart {
  readonly lastHeaderId: string | null;
  /** Taken for the first header that is opened, if it is that one. */
  readonly ahead: AskedAhead | null;
}

/** Opens by what was asked ahead where that is the header wanted with the first drawing; later it might be out of date. */
function useAskedAhead(bridge: HostBridge, ahead: AskedAhead | null) {
  const untaken = useRef(ahead);
  useEffect(
    () =>
      queueMicrotask(() => {
        untaken.current = null;
      }),
    [],
  );
  return useCallback(
    (headerId: string) => {
      const first = untaken.current;
      untaken.current = null;
      return first?.headerId === headerId ? first.answer : askHost(bridge, 'openHeader', { headerId });
    },
    [bridge],
  );
}

export function useOpenHeader(bridge: HostBridge, { lastHeaderId: lastAtStart, ahead }: AtStart): OpenHeader {
  const [state, setState] = useState<OpenHeaderState>({ kind: 'none' });
  const [lastHeaderId, setLastHeaderId] = useState(lastAtStart);
  const current = useRef<HeaderSession | null>(null);
  const wanted = useRef<string | null>(null);
  const ask = useAskedAhead(bridge, ahead);

  const adopt = useCallback(
    (opened: OpenedHeader) => {
      putAway(current.current);
      setAsideUnsaved(opened, window.sessionStorage);
      const session = new HeaderSession(opened, { bridge, ...pageParts });
      current.current = session;
      wanted.current = session.headerId;
      setLastHeaderId(session.headerId);
      setState({ kind: 'open', session });
    },
    [bridge],
  );

  const open = useCallback(
    async (headerId: string) => {
      if (wanted.current === headerId) return;
      wanted.current = headerId;
      setState({ kind: 'opening', headerId });
      const answer = await ask(headerId);
      // The person may have asked for another header meanwhile.
      if (wanted.current !== headerId) return;
      if (answer.ok) adopt(answer.value);
      else {
        // The address has left the header before this one, so its session is not shown any more.
        putAway(current.current);
        current.current = null;
        wanted.current = null;
        setState({ kind: 'failed', headerId, words: answer.words });
      }
    },
    [ask, adopt],
  );

  const drop = useCallback(() => {
    current.current?.close();
    current.current = null;
    wanted.current = null;
    setLastHeaderId(null);
    setState({ kind: 'none' });
  }, []);

  const whyItMustStay = useCallback(() => reasonToStay(current.current), []);
  return useMemo(
    () => ({ state, lastHeaderId, open, adopt, drop, whyItMustStay }),
    [state, lastHeaderId, open, adopt, drop, whyItMustStay],
  );
}

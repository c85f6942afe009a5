/** The bridge as components reach it: every answer is a value, or a refusal with its sentence. */

import { createContext, useCallback, useContext } from 'react';
import type { Problem } from '../../core/index.ts';
import type { AskedOf, CallName, HostBridge, ResponseOf } from '../../electron/bridge/contract.ts';
import { wordsFor } from '../ui/words/problem-words.ts';
import { withRequestId } from './request-ids.ts';

export const BridgeContext = createContext<HostBridge | null>(null);

export function useBridge(): HostBridge {
  const bridge = useContext(BridgeContext);
  if (bridge === null) throw new Error('No bridge above this component');
  return bridge;
}

export type Answer<Name extends CallName> =
  | { readonly ok: true; readonly value: ResponseOf<Name> }
  | { readonly ok: false; readonly words: string; readonly problems: readonly Problem[] };

const NO_ANSWER: Readonly<Record<HostBridge['host'], string>> = {
  electron:
    'The program behind this window does not answer. What was shown as saved is safe; start Evenrun again to go on.',
  browser:
    'The program behind this page does not answer: it was ended, or it was started again under another address. What was shown as saved is safe. Open the address that Evenrun printed when it was started last; if it does not run, start it again.',
};

/** Asks the host; never rejects, also when the host is gone. What was asked before without an answer is not done twice. */
export async function askHost<Name extends CallName>(
  bridge: HostBridge,
  name: Name,
  asked: AskedOf<Name>,
): Promise<Answer<Name>> {
  const { request, answered } = withRequestId(bridge, name, asked);
  try {
    const reply = await bridge.call(name, request);
    answered(reply.ok ? [] : reply.problems);
    return reply.ok ? reply : { ok: false, words: wordsFor(reply.problems), problems: reply.problems };
  } catch {
    answered(null);
    return { ok: false, words: NO_ANSWER[bridge.host], problems: [] };
  }
}

/** `askHost` bound to the bridge above. */
export function useAsk(): <Name extends CallName>(name: Name, asked: AskedOf<Name>) => Promise<Answer<Name>> {
  const bridge = useBridge();
  return useCallback((name, asked) => askHost(bridge, name, asked), [bridge]);
}

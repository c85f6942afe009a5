/** The page from its first moment: asks the host how it stands, then shows the program, or what went wrong. */

import { useCallback, useEffect, useMemo, useState } from 'react';
import type { HostBridge } from '../../electron/bridge/contract.ts';
import { CannotOpen, type Start } from '../backups/cannot-open.tsx';
import { CommandContext, createCommandRegistry } from '../commands/command-registry.ts';
import { askHost, BridgeContext } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { ErrorBoundary } from '../ui/error-boundary.tsx';
import { NoticeProvider } from '../ui/notices.tsx';
import { readScreen } from '../ui/screen.ts';
import type { AskedAhead } from './opening/use-open-header.ts';
import { showPreferences } from './preferences/preferences.ts';
import { Workshop } from './workshop.tsx';

export function App({ bridge }: { readonly bridge: HostBridge }) {
  const registry = useMemo(createCommandRegistry, []);
  return (
    <ErrorBoundary resetKey="" onLeave={null}>
      <BridgeContext value={bridge}>
        <CommandContext value={registry}>
          <NoticeProvider>
            <Started bridge={bridge} />
          </NoticeProvider>
        </CommandContext>
      </BridgeContext>
    </ErrorBoundary>
  );
}

interface StartedOnce {
  readonly start: Start;
  readonly ahead: AskedAhead | null;
  readonly count: number;
}

/** Asks for the header that the address names, or with no screen in it the last one, while the frame around it is being drawn. */
function askAhead(bridge: HostBridge, lastHeaderId: string | null): AskedAhead | null {
  const screen = readScreen(window.location.hash);
  const named = screen !== null && 'headerId' in screen ? screen.headerId : null;
  const headerId = screen === null ? lastHeaderId : named;
  return headerId === null ? null : { headerId, answer: askHost(bridge, 'openHeader', { headerId }) };
}

function Started({ bridge }: { readonly bridge: HostBridge }) {
  /** Counts the starts, so that one from a restored backup shows nothing of the one before it. */
  const [started, setStarted] = useState<StartedOnce | null>(null);
  const [words, setWords] = useState<string | null>(null);
  const take = useCallback(
    (start: Start) => {
      if (start.state === 'ready') showPreferences(start.preferences);
      const ahead = start.state === 'ready' ? askAhead(bridge, start.lastHeaderId) : null;
      setStarted((before) => ({ start, ahead, count: (before?.count ?? 0) + 1 }));
    },
    [bridge],
  );
  const ask = useCallback(async () => {
    const answer = await askHost(bridge, 'start', {});
    setWords(answer.ok ? null : answer.words);
    if (answer.ok) take(answer.value);
  }, [bridge, take]);
  const retry = useCallback(() => void ask(), [ask]);
  useEffect(retry, [retry]);
  if (words !== null) return <NoAnswer words={words} onRetry={retry} />;
  if (started === null) return <main className="page" aria-busy="true" />;
  if (started.start.state === 'cannotOpen') return <CannotOpen start={started.start} onStart={take} />;
  return <Workshop key={started.count} start={started.start} ahead={started.ahead} onStart={take} />;
}

function NoAnswer({ words, onRetry }: { readonly words: string; readonly onRetry: () => void }) {
  // The right address, opened in this very tab, changes only what stands behind the `#`, and loads nothing.
  useEffect(() => {
    window.addEventListener('hashchange', onRetry);
    return () => window.removeEventListener('hashchange', onRetry);
  }, [onRetry]);
  return (
    <main className="page prose">
      <h1>Evenrun could not start</h1>
      <p role="alert">{words}</p>
      <div className="actions">
        <Button look="main" onPress={onRetry}>
          Try again
        </Button>
      </div>
    </main>
  );
}

/** The page from its first moment: asks the host how it stands, then shows the program, or what went wrong. */

import { useCallback, useEffect, useMemo, useState } from 'react';
import type { HostBridge } from '../../electron/bridge/contract.ts';
import { CannotOpen, type Start } from '../backups/cannot-open.tsx';
import { CommandContext, createCommandRegistry } from '../commands/command-registry.ts';
import { askHost, BridgeContext } from '../host/host-bridge.ts';
import { Button } from '../ui/button.tsx';
import { ErrorBoundary } from '../ui/error-boundary.tsx';
import { NoticeProvider } from '../ui/notices.tsx';
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

function Started({ bridge }: { readonly bridge: HostBridge }) {
  /** Counts the starts, so that one from a restored backup shows nothing of the one before it. */
  const [started, setStarted] = useState<{ readonly start: Start; readonly count: number } | null>(null);
  const [words, setWords] = useState<string | null>(null);
  const take = useCallback((start: Start) => {
    if (start.state === 'ready') showPreferences(start.preferences);
    setStarted((before) => ({ start, count: (before?.count ?? 0) + 1 }));
  }, []);
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
  return <Workshop key={started.count} start={started.start} onStart={take} />;
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

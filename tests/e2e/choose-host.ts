/** Which host an end-to-end test runs the program in: the desktop window where there is one, else the loopback host. */

import type { RuntimeSearch } from '../../electron/start/electron-runtime.ts';

export interface HostWishes {
  /** For tests that hold calls up, open windows of their own, or measure in one browser. */
  readonly host?: 'loopback';
  readonly browser?: unknown;
  readonly context?: unknown;
}

export type ChosenHost = { readonly kind: 'electron'; readonly executable: string } | { readonly kind: 'loopback' };

/** A browser or a context that a test brings along can only show a page that is served. */
export function chooseHost({ host, browser, context }: HostWishes, runtime: RuntimeSearch): ChosenHost {
  const needsLoopback = host === 'loopback' || browser !== undefined || context !== undefined;
  if (needsLoopback || runtime.kind !== 'found') return { kind: 'loopback' };
  return { kind: 'electron', executable: runtime.executable };
}

/** Runs the desktop window and waits for its end; tells a runtime that dies at once from one that was used. */

import { spawn } from 'node:child_process';
import type { Death } from './death-words.ts';

export type DesktopRun =
  /** The window was there; the code is what the program should end with. */
  { readonly kind: 'ended'; readonly code: number } | { readonly kind: 'diedAtOnce'; readonly death: Death };

/** A runtime that cannot run says so well within this, also while a scanner reads it for the first time. */
const AT_ONCE_MS = 10_000;
const LAST_WORDS_LENGTH = 4_000;

export interface DesktopStart {
  readonly executable: string;
  readonly args: readonly string[];
  readonly env: NodeJS.ProcessEnv;
  /** How soon an end counts as dying at once; 10 seconds by default. */
  readonly atOnceMs?: number;
}

/** With this variable set, Electron would run as plain Node and open no window. Windows takes names in any case. */
function withoutNodeMode(env: NodeJS.ProcessEnv): NodeJS.ProcessEnv {
  return Object.fromEntries(Object.entries(env).filter(([name]) => name.toUpperCase() !== 'ELECTRON_RUN_AS_NODE'));
}

/**
 * Stays until the window is closed when the terminal says stop, so that its last steps are brought in. Ctrl+C reaches the window
 * from the terminal itself, and a second one would kill it; the other signals are passed on.
 */
function passOnSignals(pass: (signal: NodeJS.Signals) => void): { readonly wereAny: () => boolean; end(): void } {
  let wereAny = false;
  const listeners = (['SIGINT', 'SIGTERM', 'SIGHUP'] as const).map((name) => {
    const listener = (): void => {
      wereAny = true;
      if (name !== 'SIGINT') pass(name);
    };
    process.on(name, listener);
    return () => process.off(name, listener);
  });
  return {
    wereAny: () => wereAny,
    end: () => {
      for (const takeOff of listeners) takeOff();
    },
  };
}

export function runDesktop({ executable, args, env, atOnceMs = AT_ONCE_MS }: DesktopStart): Promise<DesktopRun> {
  const { promise, resolve } = Promise.withResolvers<DesktopRun>();
  const startMs = performance.now();
  let lastWords = '';
  // First, for from its first moment on the window must not be left behind.
  const signals = passOnSignals((signal) => child.kill(signal));
  const child = spawn(executable, args, { stdio: ['inherit', 'inherit', 'pipe'], env: withoutNodeMode(env) });
  child.stderr.on('data', (part: Buffer) => {
    process.stderr.write(part);
    lastWords = (lastWords + String(part)).slice(-LAST_WORDS_LENGTH);
  });
  const end = (code: number | null, signal: NodeJS.Signals | null): void => {
    signals.end();
    const isWell = code === 0 || signals.wereAny();
    const wasAtOnce = performance.now() - startMs < atOnceMs;
    if (isWell || !wasAtOnce) resolve({ kind: 'ended', code: signals.wereAny() ? 0 : (code ?? 1) });
    else resolve({ kind: 'diedAtOnce', death: { executable, lastWords, code, signal } });
  };
  child.once('error', (cause) => {
    lastWords = cause.message;
    end(1, null);
  });
  // Unlike `exit`, `close` comes after the last words.
  child.once('close', end);
  return promise;
}

/** Lets the page bring in what it still holds before its window goes. */

import { app, type BrowserWindow, powerMonitor } from 'electron';
import { sendToPage } from './bridge-ipc.ts';

/** How long the page may take; a disk that is slower than this is in trouble, and what was typed is kept as a draft. */
export const FLUSH_LIMIT_MS = 5_000;

export interface Closing {
  /** The page has committed all that it held. */
  readyToClose(): void;
  /** From now on this window does not close before its page is ready. */
  guard(window: BrowserWindow): void;
}

/** Lets the back half finish before the program goes; without windows there is nothing to stay for, on any system. */
export function closeAtQuit(close: () => Promise<void>): void {
  let isClosed = false;
  app.on('window-all-closed', () => app.quit());
  app.on('will-quit', (event) => {
    if (isClosed) return;
    event.preventDefault();
    void close().finally(() => {
      isClosed = true;
      app.quit();
    });
  });
}

/** Asks the page to bring everything in. Ends when it is ready, is gone, or the time is up. */
function flushPage(window: BrowserWindow): { readonly done: Promise<void>; readonly end: () => void } {
  const { promise, resolve } = Promise.withResolvers<void>();
  const timer = setTimeout(resolve, FLUSH_LIMIT_MS);
  window.webContents.once('render-process-gone', () => resolve());
  sendToPage(window, { kind: 'flush' });
  return { done: promise.finally(() => clearTimeout(timer)), end: resolve };
}

export function createClosing(): Closing {
  let endFlush: (() => void) | null = null;
  const afterFlush: (() => void)[] = [];
  const flushThen = (window: BrowserWindow, next: () => void): void => {
    afterFlush.push(next);
    if (endFlush !== null) return;
    const flush = flushPage(window);
    endFlush = flush.end;
    void flush.done.then(() => {
      endFlush = null;
      for (const act of afterFlush.splice(0)) act();
    });
  };
  const guard = (window: BrowserWindow): void => {
    const leave = (): void => {
      if (!window.isDestroyed()) window.destroy();
    };
    window.on('close', (event) => {
      if (window.webContents.isCrashed()) return;
      event.preventDefault();
      flushThen(window, leave);
    });
    // Windows asks every program before it ends the session; the flush runs while the others are asked.
    window.on('query-session-end', () => flushThen(window, () => undefined));
    window.on('session-end', () => app.quit());
    // Electron hands over an event here, though its types do not say so; holding it back asks the system to wait.
    powerMonitor.on('shutdown', (event?: { preventDefault(): void }) => {
      event?.preventDefault();
      app.quit();
    });
  };
  return { readyToClose: () => endFlush?.(), guard };
}

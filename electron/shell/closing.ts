/** Lets the page bring in what it still holds before its window goes, and asks when that cannot be saved. */

import { app, type BrowserWindow, powerMonitor } from 'electron';
import type { Unsaved } from '../bridge/contract.ts';
import { sendToPage } from './bridge-ipc.ts';
import { mayLeaveUnsaved } from './unsaved-question.ts';

/** How long the page may take to answer before the person is asked. */
export const FLUSH_LIMIT_MS = 5_000;

export interface Closing {
  /** The page has committed all that it held. */
  readyToClose(): void;
  /** The page holds what it cannot save. */
  notYetSaved(unsaved: Unsaved): void;
  /** From now on this window does not close before its page is ready, or the person says so. */
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

/** How the page answered: with all saved or gone itself, with what it could not save, or not at all. */
type FlushAnswer =
  | { readonly kind: 'nothingLeft' }
  | { readonly kind: 'heldUp'; readonly unsaved: Unsaved }
  | { readonly kind: 'silent' };

/** One asking of the page. */
interface Flush {
  readonly answer: Promise<FlushAnswer>;
  /** Aborted once all is saved, also after another answer. */
  readonly allSaved: AbortController;
  readonly heldUp: (unsaved: Unsaved) => void;
}

function flushPage(window: BrowserWindow): Flush {
  const { promise, resolve } = Promise.withResolvers<FlushAnswer>();
  const allSaved = new AbortController();
  const nothingLeft = (): void => resolve({ kind: 'nothingLeft' });
  const timer = setTimeout(() => resolve({ kind: 'silent' }), FLUSH_LIMIT_MS);
  allSaved.signal.addEventListener('abort', nothingLeft);
  window.webContents.once('render-process-gone', nothingLeft);
  sendToPage(window, { kind: 'flush' });
  const answer = promise.finally(() => {
    clearTimeout(timer);
    if (!window.isDestroyed()) window.webContents.off('render-process-gone', nothingLeft);
  });
  return { answer, allSaved, heldUp: (unsaved) => resolve({ kind: 'heldUp', unsaved }) };
}

function isLeaving(window: BrowserWindow, answer: FlushAnswer, allSaved: AbortSignal): Promise<boolean> {
  if (answer.kind === 'nothingLeft') return Promise.resolve(true);
  return mayLeaveUnsaved(window, answer.kind === 'heldUp' ? answer.unsaved : null, allSaved);
}

export function createClosing(): Closing {
  let flush: Flush | null = null;
  let isAsking = false;
  /** Asks the page, unless it is being asked. */
  const flushOnce = (window: BrowserWindow): Flush => {
    if (flush !== null) return flush;
    const begun = flushPage(window);
    flush = begun;
    void begun.answer.then(() => {
      if (!isAsking && flush === begun) flush = null;
    });
    return begun;
  };
  const leave = async (window: BrowserWindow): Promise<void> => {
    if (isAsking) return;
    isAsking = true;
    const { answer, allSaved } = flushOnce(window);
    const mayGo = await isLeaving(window, await answer, allSaved.signal);
    isAsking = false;
    flush = null;
    if (mayGo && !window.isDestroyed()) window.destroy();
  };
  const guard = (window: BrowserWindow): void => {
    window.on('close', (event) => {
      if (window.webContents.isCrashed()) return;
      event.preventDefault();
      void leave(window);
    });
    // Windows asks every program before it ends the session; the flush runs while the others are asked.
    window.on('query-session-end', () => void flushOnce(window));
    window.on('session-end', () => app.quit());
    // Electron hands over an event here, though its types do not say so; holding it back asks the system to wait.
    powerMonitor.on('shutdown', (event?: { preventDefault(): void }) => {
      event?.preventDefault();
      app.quit();
    });
  };
  return {
    readyToClose: () => flush?.allSaved.abort(),
    notYetSaved: (unsaved) => flush?.heldUp(unsaved),
    guard,
  };
}

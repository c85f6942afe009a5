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

/** Whether the window may go: once all is saved, or when the person says so. */
async function mayGo(window: BrowserWindow, { answer, allSaved }: Flush): Promise<boolean> {
  const answered = await answer;
  if (answered.kind === 'nothingLeft') return true;
  return mayLeaveUnsaved(window, answered.kind === 'heldUp' ? answered.unsaved : null, allSaved.signal);
}

interface ClosingActs {
  /** Asks the page to bring everything in, and no more. */
  readonly bringIn: (window: BrowserWindow) => void;
  /** Closes the window once it may go. */
  readonly leave: (window: BrowserWindow) => void;
}

function guardWindow(window: BrowserWindow, { bringIn, leave }: ClosingActs): void {
  window.on('close', (event) => {
    if (window.webContents.isCrashed()) return;
    event.preventDefault();
    leave(window);
  });
  // Windows asks every program before it ends the session; the flush runs while the others are asked.
  window.on('query-session-end', () => bringIn(window));
  window.on('session-end', () => app.quit());
  // Electron hands over an event here, though its types do not say so; holding it back asks the system to wait.
  powerMonitor.on('shutdown', (event?: { preventDefault(): void }) => {
    event?.preventDefault();
    app.quit();
  });
}

export function createClosing(): Closing {
  /** The asking that is not ended; a second one waits for the same answer. */
  let flush: Flush | null = null;
  let isLeaving = false;
  const flushOnce = (window: BrowserWindow): Flush => {
    const begun = flush ?? flushPage(window);
    flush = begun;
    return begun;
  };
  const end = (ended: Flush): void => {
    if (flush === ended) flush = null;
  };
  const bringIn = (window: BrowserWindow): void => {
    const begun = flushOnce(window);
    void begun.answer.then(() => {
      if (!isLeaving) end(begun);
    });
  };
  const leave = async (window: BrowserWindow): Promise<void> => {
    if (isLeaving) return;
    isLeaving = true;
    const begun = flushOnce(window);
    const isFree = await mayGo(window, begun);
    isLeaving = false;
    end(begun);
    if (isFree && !window.isDestroyed()) window.destroy();
  };
  return {
    readyToClose: () => flush?.allSaved.abort(),
    notYetSaved: (unsaved) => flush?.heldUp(unsaved),
    guard: (window) => guardWindow(window, { bringIn, leave: (leaving) => void leave(leaving) }),
  };
}

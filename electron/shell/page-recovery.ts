/** What happens when the page crashes, hangs or cannot be loaded: it is loaded again, or the person is asked. */

import { type BrowserWindow, dialog } from 'electron';
import type { FileLog } from '../output/file-log.ts';
import { loadPage } from './main-window.ts';

/** As many crashes within this time and it is not loaded again by itself: it would only crash again. */
const CRASHES = { limit: 3, withinMs: 60_000 } as const;

/** Chromium's code for a load that was given up for another; nothing is wrong then. */
const LOAD_GIVEN_UP = -3;

const SAVED_IS_SAFE = 'Everything that was marked as saved is there.';

interface Choice {
  readonly message: string;
  readonly detail: string;
  /** The first is the answer when the question is closed. */
  readonly buttons: readonly [string, string];
  /** Ends the question by itself. */
  readonly signal?: AbortSignal;
}

/** True when the second button was pressed. */
async function isSecondChosen(window: BrowserWindow, { buttons, ...choice }: Choice): Promise<boolean> {
  const { response } = await dialog.showMessageBox(window, {
    type: 'warning',
    title: 'Evenrun',
    ...choice,
    buttons: [...buttons],
    defaultId: 0,
    cancelId: 0,
    noLink: true,
  });
  return response === 1;
}

/** Offers to load the page again; the other choice ends the program, for a window without a page is of no use. */
async function askToLoadAgain(window: BrowserWindow, message: string, detail: string): Promise<void> {
  // A window whose first page did not come is still hidden.
  window.show();
  const isLeaving = await isSecondChosen(window, { message, detail, buttons: ['Load it again', 'Close Evenrun'] });
  if (window.isDestroyed()) return;
  if (isLeaving) window.destroy();
  else await loadPage(window);
}

async function loadAfterCrash(window: BrowserWindow, isOften: boolean): Promise<void> {
  if (isOften) return askToLoadAgain(window, 'The page has stopped several times in a row', SAVED_IS_SAFE);
  await loadPage(window);
  if (window.isDestroyed()) return;
  await dialog.showMessageBox(window, {
    type: 'info',
    title: 'Evenrun',
    message: 'The page stopped and was loaded again',
    detail: `${SAVED_IS_SAFE} Look at the last entry: one that was just made may be missing.`,
    buttons: ['Go on'],
  });
}

function loadAgainAfterCrashes(window: BrowserWindow, log: FileLog): void {
  let crashesMs: readonly number[] = [];
  window.webContents.on('render-process-gone', (_event, { reason, exitCode }) => {
    if (reason === 'clean-exit') return;
    log.write({ page: reason, exitCode });
    const nowMs = performance.now();
    crashesMs = [...crashesMs.filter((ms) => nowMs - ms < CRASHES.withinMs), nowMs];
    const isOften = crashesMs.length >= CRASHES.limit;
    // Once whoever else listens has acted: a window that was closing goes now.
    setImmediate(() => {
      if (!window.isDestroyed()) void loadAfterCrash(window, isOften);
    });
  });
}

function askWhileUnresponsive(window: BrowserWindow): void {
  let question: AbortController | null = null;
  window.on('responsive', () => question?.abort());
  window.on('unresponsive', () => {
    if (question !== null) return;
    question = new AbortController();
    const { signal } = question;
    void isSecondChosen(window, {
      message: 'The page does not answer',
      detail: `Wait, or load it again. ${SAVED_IS_SAFE}`,
      buttons: ['Wait', 'Load it again'],
      signal,
    }).then((isLoading) => {
      question = null;
      // What follows a crash follows this one, too.
      if (isLoading && !signal.aborted && !window.isDestroyed()) window.webContents.forcefullyCrashRenderer();
    });
  });
}

function askAfterFailedLoads(window: BrowserWindow, log: FileLog): void {
  const { webContents } = window;
  webContents.on('did-fail-load', (_event, code, description, _address, isMainFrame) => {
    if (!isMainFrame || code === LOAD_GIVEN_UP) return;
    log.write({ page: 'not loaded', code, description });
    void askToLoadAgain(window, 'The page could not be loaded', `${description} (${code}). ${SAVED_IS_SAFE}`);
  });
  // Without it the page has no way to the data.
  webContents.on('preload-error', (_event, _path, fault) => {
    log.write({ page: 'no preload', description: fault.message });
    void askToLoadAgain(window, 'The page could not be loaded', `${fault.message} ${SAVED_IS_SAFE}`);
  });
}

/** Must run before the page is first loaded. */
export function recoverPage(window: BrowserWindow, log: FileLog): void {
  loadAgainAfterCrashes(window, log);
  askWhileUnresponsive(window);
  askAfterFailedLoads(window, log);
}

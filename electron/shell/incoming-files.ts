/** Files that the system hands over: at the start, while running, or through a second start of the program. */

import { app, type BrowserWindow, dialog } from 'electron';
import { describeProblem } from '../../core/index.ts';
import { sendToPage } from './bridge-ipc.ts';
import { readLaunchArguments } from './launch-arguments.ts';
import { readOpenedFile } from './opened-file.ts';

export interface IncomingFiles {
  /** From now on files go to this window; those that came before go first. */
  showIn(window: BrowserWindow): void;
}

/** Reads the file and hands it to the page, or tells the user why not. */
export async function openFileIn(window: BrowserWindow, path: string): Promise<void> {
  const opened = await readOpenedFile(path);
  if (window.isDestroyed()) return;
  if (opened.ok) {
    app.addRecentDocument(path);
    sendToPage(window, { kind: 'openFile', ...opened.value });
    return;
  }
  await dialog.showMessageBox(window, {
    type: 'warning',
    message: 'This file was not opened.',
    detail: opened.problems.map(describeProblem).join('\n'),
  });
}

function bringForward(window: BrowserWindow): void {
  if (window.isMinimized()) window.restore();
  window.show();
  window.focus();
}

/** Must run before the app is ready: macOS may hand over a file earlier than that. */
export function listenForFiles(firstFiles: readonly string[]): IncomingFiles {
  const waiting = [...firstFiles];
  let target: BrowserWindow | null = null;
  const take = (paths: readonly string[]): void => {
    if (target === null || target.isDestroyed()) waiting.push(...paths);
    else for (const path of paths) void openFileIn(target, path);
  };
  app.on('open-file', (event, path) => {
    event.preventDefault();
    take([path]);
  });
  app.on('second-instance', (_event, argv, workingFolder) => {
    if (target !== null && !target.isDestroyed()) bringForward(target);
    take(readLaunchArguments(argv, workingFolder).files);
  });
  return {
    showIn(window) {
      target = window;
      take(waiting.splice(0));
    },
  };
}

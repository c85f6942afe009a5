/** Asks where an exported file should go and puts it there, whole or not at all. */

import { basename } from 'node:path';
import { app, type BrowserWindow, dialog, type SaveDialogOptions } from 'electron';
import { describeProblem } from '../../core/index.ts';
import { type OutgoingFile, outgoingFile } from '../output/outgoing-file.ts';
import type { SavedFile } from '../output/saved-file.ts';
import { writeFileAtomically } from '../output/write-file-atomically.ts';
import { expectedProblem } from '../store/file/faults.ts';

const FILTERS: Readonly<Record<string, NonNullable<SaveDialogOptions['filters']>>> = {
  'application/json': [{ name: 'Header files', extensions: ['json'] }],
  'text/csv': [{ name: 'Lists for spreadsheets', extensions: ['csv'] }],
  'application/pdf': [{ name: 'Pages', extensions: ['pdf'] }],
  'application/jsonl': [{ name: 'Finished headers', extensions: ['jsonl'] }],
  'application/vnd.sqlite3': [{ name: 'Backups of everything', extensions: ['sqlite'] }],
  'image/svg+xml': [{ name: 'Drawings', extensions: ['svg'] }],
  'image/vnd.dxf': [{ name: 'Drawings', extensions: ['dxf'] }],
};

/** Null when the file is written. Whatever stood there before stays when it is not. */
function writeOrSayWhy(path: string, content: string | Uint8Array): string | null {
  try {
    writeFileAtomically(path, content);
    return null;
  } catch (cause) {
    return describeProblem(expectedProblem(cause, path));
  }
}

/** Null: called off. Whatever stands there stays until the file is whole. */
async function askForPath(window: BrowserWindow, fileName: string, mediaType: string): Promise<string | null> {
  const filters = FILTERS[mediaType] ?? [];
  const chosen = await dialog.showSaveDialog(window, { title: 'Save a copy', defaultPath: fileName, filters });
  return chosen.canceled || chosen.filePath === '' ? null : chosen.filePath;
}

/** Asks where a file should go that is then written piece by piece. */
export async function openWithDialog(
  window: BrowserWindow,
  fileName: string,
  mediaType: string,
): Promise<{ readonly file: OutgoingFile } | null> {
  const path = await askForPath(window, fileName, mediaType);
  return path === null ? null : { file: outgoingFile(path) };
}

/** When the place that was chosen does not take the file the user is told why, and the answer is `cancelled`. */
export async function saveWithDialog(
  window: BrowserWindow,
  {
    fileName,
    mediaType,
    content,
  }: { readonly fileName: string; readonly mediaType: string; readonly content: string | Uint8Array },
): Promise<SavedFile> {
  const path = await askForPath(window, fileName, mediaType);
  if (path === null) return { kind: 'cancelled' };
  const whyNot = writeOrSayWhy(path, content);
  if (whyNot !== null) {
    await dialog.showMessageBox(window, { type: 'warning', message: 'The file was not saved.', detail: whyNot });
    return { kind: 'cancelled' };
  }
  app.addRecentDocument(path);
  return { kind: 'saved', fileName: basename(path) };
}

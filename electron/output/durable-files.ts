/** Making files and their names survive a power cut. */

import { closeSync, constants, copyFileSync, fsyncSync, openSync, rmSync } from 'node:fs';
import { keepPrivate } from './private-files.ts';

/** Puts what was written to the file onto the disk. */
export function syncFile(path: string): void {
  const descriptor = openSync(path, 'r+');
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/** Puts names made, changed or removed in the folder onto the disk. Windows has no such call and needs none. */
export function syncFolder(path: string): void {
  if (process.platform === 'win32') return;
  const descriptor = openSync(path, 'r');
  try {
    fsyncSync(descriptor);
  } finally {
    closeSync(descriptor);
  }
}

/**
 * A whole copy on the disk that is its owner's alone, or none: what was begun is removed when it cannot be ended.
 * Throws when there is something under the new name already.
 */
export function copyDurably(from: string, to: string): void {
  try {
    copyFileSync(from, to, constants.COPYFILE_EXCL);
    keepPrivate(to);
    syncFile(to);
  } catch (cause) {
    const isOurs = (cause as NodeJS.ErrnoException).code !== 'EEXIST';
    if (isOurs) rmSync(to, { force: true });
    throw cause;
  }
}

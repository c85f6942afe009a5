/** Files that leave the program are whole or not there: a failed write leaves the previous file as it was. */

import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { syncFolder } from './durable-files.ts';

/**
 * Writes to a new file beside the wanted one, puts it on the disk, then gives it the name.
 * Throws what the file system throws, after removing what was begun.
 */
export function writeFileAtomically(file: string, content: string | Uint8Array): void {
  const folder = dirname(file);
  // The process id keeps two processes that write the same file apart.
  const unfinished = join(folder, `.${basename(file).slice(0, 80)}.${process.pid}.partial`);
  try {
    const descriptor = openSync(unfinished, 'w');
    try {
      writeFileSync(descriptor, content);
      fsyncSync(descriptor);
    } finally {
      closeSync(descriptor);
    }
    renameSync(unfinished, file);
  } catch (cause) {
    rmSync(unfinished, { force: true });
    throw cause;
  }
  syncFolder(folder);
}

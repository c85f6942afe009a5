/** Files and folders that are their owner's alone, where the system knows owners. Windows keeps a user's folders apart by itself. */

import { chmodSync, closeSync, lstatSync, mkdirSync, openSync } from 'node:fs';

const FOLDER_MODE = 0o700;
const FILE_MODE = 0o600;
/** What a disk answers that knows no owners, or lets nothing be changed; the program then goes without. */
const NOT_TO_BE_HAD = new Set(['EPERM', 'EACCES', 'EROFS', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'ENOENT']);

/** Makes the folder, and those above it, unless they are there. */
export function makePrivateFolder(path: string): void {
  mkdirSync(path, { recursive: true, mode: FOLDER_MODE });
}

/** Makes an empty file, for someone else to write into. False when there is something of that name already. */
export function beginPrivateFile(path: string): boolean {
  try {
    closeSync(openSync(path, 'wx', FILE_MODE));
    return true;
  } catch (cause) {
    if (codeOf(cause) !== 'EEXIST') throw cause;
    return false;
  }
}

/**
 * Takes away what others than the owner may do with a file or folder; what the owner may do stays as it is. Nothing
 * happens to what is not there, to a link, to what is another user's, and to a folder that is everyone's on purpose,
 * as the system's folder for temporary files is (its sticky bit says so).
 */
export function keepPrivate(path: string): void {
  if (process.platform === 'win32') return;
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found || !(found.isFile() || found.isDirectory()) || found.uid !== process.getuid?.()) return;
  const isForEveryone = (found.mode & 0o1000) !== 0;
  if (isForEveryone || (found.mode & 0o077) === 0) return;
  try {
    chmodSync(path, found.mode & FOLDER_MODE);
  } catch (cause) {
    if (!NOT_TO_BE_HAD.has(codeOf(cause))) throw cause;
  }
}

function codeOf(cause: unknown): string {
  return (cause as NodeJS.ErrnoException).code ?? '';
}

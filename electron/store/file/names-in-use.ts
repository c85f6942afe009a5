/** What stands under a name that the store wants to use, and how it is moved out of the way without a loss. */

import { lstatSync, renameSync, rmSync, statSync } from 'node:fs';

/** What SQLite puts after a database's name for the files beside it: log, log index, rollback journal. */
export const BESIDE = ['-wal', '-shm', '-journal'] as const;

/** Of these, what holds entries of its own, and so goes wherever its database goes. */
export const BELONGS_TO_IT = ['-wal', '-journal'] as const;

/** Looks at the name itself: a link is a link, wherever it leads. */
export function whatStandsAt(path: string): 'nothing' | 'file' | 'folder' | 'link' | 'other' {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found) return 'nothing';
  if (found.isSymbolicLink()) return 'link';
  if (found.isFile()) return 'file';
  return found.isDirectory() ? 'folder' : 'other';
}

/** In bytes; 0 where there is nothing. */
export function sizeOf(path: string): number {
  return statSync(path, { throwIfNoEntry: false })?.size ?? 0;
}

/** SQLite takes a file of one byte for an empty one: on some disks it begins its files so. */
export function isNothing(file: string): boolean {
  return sizeOf(file) <= 1;
}

/** Makes a name of ours free: a plain file is removed; a folder, a link or anything else is kept under another name. */
export function freeName(path: string): void {
  const found = whatStandsAt(path);
  if (found === 'file') rmSync(path);
  else if (found !== 'nothing') moveAside(path);
}

/** As freeName, for a database and all that can stand beside it. */
export function freeDatabase(file: string): void {
  for (const end of ['', ...BESIDE]) freeName(file + end);
}

/** Gives it a name beside the old one that nothing has; what it holds or leads to is not looked at. */
export function moveAside(path: string): void {
  let count = 1;
  while (whatStandsAt(`${path}.aside-${count}`) !== 'nothing') count += 1;
  renameSync(path, `${path}.aside-${count}`);
}

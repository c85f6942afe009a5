/** What stands under a name that the store wants to use, and how it is moved out of the way without a loss. */

import { lstatSync, renameSync, rmSync } from 'node:fs';

export type Standing = 'nothing' | 'file' | 'folder' | 'link' | 'other';

/** Looks at the name itself: a link is a link, wherever it leads. */
export function whatStandsAt(path: string): Standing {
  const found = lstatSync(path, { throwIfNoEntry: false });
  if (!found) return 'nothing';
  if (found.isSymbolicLink()) return 'link';
  if (found.isFile()) return 'file';
  return found.isDirectory() ? 'folder' : 'other';
}

/** Makes a name of ours free: a plain file is removed; a folder, a link or anything else is kept under another name. */
export function freeName(path: string): void {
  const found = whatStandsAt(path);
  if (found === 'file') rmSync(path);
  else if (found !== 'nothing') moveAside(path);
}

/** Gives it a name beside the old one that nothing has; what it holds or leads to is not looked at. */
export function moveAside(path: string): void {
  let count = 1;
  while (whatStandsAt(`${path}.aside-${count}`) !== 'nothing') count += 1;
  renameSync(path, `${path}.aside-${count}`);
}

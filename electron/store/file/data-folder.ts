/** Where everything that the store keeps lies, and whether that is a place to keep it. */

import { existsSync, lstatSync, mkdirSync } from 'node:fs';
import { dirname, join, resolve, sep } from 'node:path';
import type { StorageProblem } from '../../../core/index.ts';
import { storageProblem } from './faults.ts';

export interface DataFolder {
  readonly folder: string;
  readonly databaseFile: string;
  readonly backupsFolder: string;
}

export function dataFolder(path: string): DataFolder {
  const folder = resolve(path);
  return { folder, databaseFile: join(folder, 'evenrun.sqlite'), backupsFolder: join(folder, 'backups') };
}

/**
 * Makes the folder when it is missing. Refuses links and anything that is not a plain file: a database reached by two
 * names has two journals, and loses entries. Throws what the file system throws.
 */
export function checkDataFolder({ folder, databaseFile }: DataFolder): StorageProblem | null {
  mkdirSync(folder, { recursive: true });
  if (lstatSync(folder).isSymbolicLink())
    return storageProblem('notOurs', folder, 'the data folder is a symbolic link');
  const file = lstatSync(databaseFile, { throwIfNoEntry: false });
  if (file?.isSymbolicLink()) return storageProblem('notOurs', databaseFile, 'the file is a symbolic link');
  if (file && !file.isFile()) return storageProblem('notOurs', databaseFile, 'not a plain file');
  return null;
}

/** Folders that a program keeps equal on several machines, by the names that they are given. */
const SYNCHRONISED_NAMES =
  /^(dropbox|onedrive\b.*|google ?drive|my drive|icloud ?drive|mobile documents|nextcloud|owncloud|pclouddrive|syncthing)$/i;

/** A sentence for the user when the folder seems to be synchronised; such programs copy a live database apart. */
export function synchronisedFolderNotice(folder: string): string | null {
  const name = folder.split(sep).find((part) => SYNCHRONISED_NAMES.test(part)) ?? syncMarkerAbove(folder);
  if (name === null) return null;
  return `The data folder lies inside a synchronised folder (${name}). Synchronising while the program runs can damage the database: keep it on this computer's own disk, and copy backups instead.`;
}

/** Syncthing marks the top of each folder that it keeps. */
function syncMarkerAbove(folder: string): string | null {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, '.stfolder'))) return at;
    if (dirname(at) === at) return null;
  }
}

/** Where everything that the store keeps lies, and whether that is a place to keep it. */

import { accessSync, constants, existsSync, readdirSync } from 'node:fs';
import { dirname, join, resolve, sep } from 'node:path';
import type { StorageProblem } from '../../../core/index.ts';
import { keepPrivate, makePrivateFolder } from '../../output/private-files.ts';
import { expectedProblem, storageProblem } from './faults.ts';
import { BESIDE, whatStandsAt } from './names-in-use.ts';

export interface DataFolder {
  readonly folder: string;
  readonly databaseFile: string;
  readonly backupsFolder: string;
}

/** SQLite takes paths of up to 512 bytes, and a backup that is being made has a name of up to 90 inside the folder. */
const LONGEST_FOLDER_BYTES = 420;

export function dataFolder(path: string): DataFolder {
  const folder = resolve(path);
  return { folder, databaseFile: join(folder, 'evenrun.sqlite'), backupsFolder: join(folder, 'backups') };
}

/**
 * Makes the folder when it is missing. Refuses links and anything that is not a plain file in a plain folder: a database
 * reached by two names has two journals, and loses entries. Throws what the file system throws.
 */
export function checkDataFolder(place: DataFolder): StorageProblem | null {
  const { folder, databaseFile } = place;
  const trouble = folderProblem(place);
  if (trouble) return trouble;
  if (whatStandsAt(folder) === 'nothing') makePrivateFolder(folder);
  for (const file of [databaseFile, ...BESIDE.map((end) => databaseFile + end)]) {
    const found = whatStandsAt(file);
    if (found === 'link') return storageProblem('notOurs', file, 'the file is a symbolic link');
    if (found !== 'nothing' && found !== 'file') return storageProblem('notOurs', file, 'not a plain file');
  }
  return null;
}

/**
 * What may not be written, if the system says so. To be asked before SQLite is: that makes its log beside a file which it
 * may only read, under the same restriction, and could not write into that later, when the file may be written again.
 */
export function writeProblem({ folder, databaseFile }: DataFolder): StorageProblem | null {
  for (const path of [folder, databaseFile, ...BESIDE.map((end) => databaseFile + end)]) {
    if (whatStandsAt(path) === 'nothing') continue;
    try {
      accessSync(path, constants.R_OK | constants.W_OK);
    } catch (cause) {
      return expectedProblem(cause, path);
    }
  }
  return null;
}

/** As checkDataFolder, for the folder alone, and makes nothing. */
export function folderProblem({ folder }: DataFolder): StorageProblem | null {
  const bytes = Buffer.byteLength(folder);
  if (bytes > LONGEST_FOLDER_BYTES)
    return storageProblem('pathTooLong', folder, `${bytes} bytes; ${LONGEST_FOLDER_BYTES} are the most`);
  const found = whatStandsAt(folder);
  if (found === 'link') return storageProblem('notOurs', folder, 'the data folder is a symbolic link');
  if (found !== 'nothing' && found !== 'folder') return storageProblem('notOurs', folder, 'this is not a folder');
  return null;
}

/** Takes from other users of the machine what they could do with folders and files made by an earlier version or by hand. */
export function keepFolderPrivate({ folder, backupsFolder }: DataFolder): void {
  for (const each of [folder, backupsFolder]) {
    if (whatStandsAt(each) !== 'folder') continue;
    keepPrivate(each);
    for (const entry of readdirSync(each, { withFileTypes: true }))
      if (entry.isFile() && OUR_NAMES.test(entry.name)) keepPrivate(join(each, entry.name));
  }
}

/** The database, what stands beside it, its backups, and the logs. */
const OUR_NAMES = /^(?:evenrun[.-]|crashes\.log)/;

/** Folders that a program keeps equal on several machines, by the names that they are given. */
const SYNCHRONISED_NAMES =
  /^(dropbox|onedrive\b.*|google ?drive|my drive|icloud ?drive|mobile documents|nextcloud|owncloud|pclouddrive|syncthing)$/i;

/** What the user should know of the place: that it seems to be synchronised. Such programs copy a live database apart. */
export function noticesAbout({ folder }: DataFolder): readonly string[] {
  const name = folder.split(sep).find((part) => SYNCHRONISED_NAMES.test(part)) ?? syncMarkerAbove(folder);
  if (name === null) return [];
  const notice = `The data folder lies inside a synchronised folder (${name}). Synchronising while the program runs can damage the database: keep it on this computer's own disk, and copy backups instead.`;
  return [notice];
}

/** Syncthing marks the top of each folder that it keeps. */
function syncMarkerAbove(folder: string): string | null {
  for (let at = folder; ; at = dirname(at)) {
    if (existsSync(join(at, '.stfolder'))) return at;
    if (dirname(at) === at) return null;
  }
}

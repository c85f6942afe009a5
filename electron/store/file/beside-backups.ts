/** What the backups tell about the live file: that it was lost, or that a crash cut the restoring of one off. */

import { existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { StorageProblem } from '../../../core/index.ts';
import { listBackups } from '../backups/backups.ts';
import { BELONGS_TO_IT, type DataFolder } from './data-folder.ts';
import { storageProblem } from './faults.ts';

/** SQLite takes a file of one byte for an empty one: on some disks it begins its files so. */
export function isNothing(file: string): boolean {
  return (statSync(file, { throwIfNoEntry: false })?.size ?? 0) <= 1;
}

/** Null: there is a file with something in it, or there never was one. */
export function missingProblem(place: DataFolder): StorageProblem | null {
  return isNothing(place.databaseFile) ? lostProblem(place) : null;
}

/** For a live file that is gone or holds nothing: while there are backups of it, it was lost, not never made. */
export function lostProblem(place: DataFolder): StorageProblem | null {
  if (listBackups(place).length === 0) return null;
  return storageProblem('missing', place.databaseFile, 'the file is missing or empty, though backups of it exist');
}

/**
 * Restoring a backup gives the live file a second name before another file takes its place. A crash in between leaves
 * both; a database must have one. What had been taken from beside it by then is put back.
 */
export function separateFromAside(place: DataFolder): void {
  const file = place.databaseFile;
  const live = statSync(file, { throwIfNoEntry: false });
  if (!live || live.nlink < 2) return;
  for (const { name } of listBackups(place)) {
    const aside = join(place.backupsFolder, name);
    if (statSync(aside).ino === live.ino) takeNameFrom(aside, file);
  }
}

function takeNameFrom(aside: string, file: string): void {
  for (const end of BELONGS_TO_IT) {
    if (existsSync(aside + end) && !existsSync(file + end)) renameSync(aside + end, file + end);
    else rmSync(aside + end, { force: true });
  }
  rmSync(aside);
}

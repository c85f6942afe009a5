/** Puts a backup in the place of the live database, which is set aside whole, never repaired or thrown away. */

import { existsSync, linkSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import { copyDurably, syncFolder } from '../../output/durable-files.ts';
import { type DataFolder, folderProblem } from '../file/data-folder.ts';
import { expectedProblem } from '../file/faults.ts';
import {
  BELONGS_TO_IT,
  BESIDE,
  freeDatabase,
  freeName,
  moveAside,
  sizeOf,
  whatStandsAt,
} from '../file/names-in-use.ts';
import { listBackups, nextBackup, rotate } from './backups.ts';
import { checkCopy, makeSelfContained } from './check-copy.ts';

interface Wanted {
  readonly now: Date;
  /** The live database was open and sound until now, so another process may have it open too. */
  readonly wasOpen: boolean;
}

/**
 * The live database must be closed in this process. The backup is copied and checked before the live file is touched;
 * the last step is one rename, so a crash leaves the one or the other. A folder or a link that stands in the place of a
 * file keeps what it holds, under another name. Problems: notFound, and storage faults.
 */
export function restoreBackup(
  place: DataFolder,
  { name, ...wanted }: Wanted & { readonly name: string },
): Result<Record<never, never>, Problem> {
  const file = join(place.backupsFolder, name);
  try {
    const trouble = folderProblem(place);
    if (trouble) return failure(trouble);
    if (!listBackups(place).some((backup) => backup.name === name))
      return failure({ kind: 'notFound', what: 'backup', id: name });
  } catch (cause) {
    return failure(expectedProblem(cause, file));
  }
  return restoreFile(place, file, wanted);
}

/** As restoreBackup, from a file that need not be one of the backups. */
export function restoreFile(place: DataFolder, file: string, wanted: Wanted): Result<Record<never, never>, Problem> {
  const live = place.databaseFile;
  const copy = `${live}.restoring`;
  let at = file;
  try {
    const trouble = folderProblem(place);
    if (trouble) return failure(trouble);
    freeDatabase(copy);
    try {
      takeCopy(at, copy);
      at = live;
      // A database leaves its log only for the sole connection to it: `busy` where another process has it open.
      if (wanted.wasOpen) makeSelfContained(live);
      setAside(place, wanted.now);
      renameSync(copy, live);
      syncFolder(place.folder);
      rotate(place);
      return success({});
    } finally {
      freeDatabase(copy);
    }
  } catch (cause) {
    return failure(expectedProblem(cause, at));
  }
}

function takeCopy(from: string, to: string): void {
  copyDurably(from, to);
  for (const end of BELONGS_TO_IT) if (whatStandsAt(from + end) === 'file') copyDurably(from + end, to + end);
  makeSelfContained(to);
  checkCopy(to);
}

/**
 * Gives the live file a second name among the backups, with its log or journal; then its first name alone is left, to be
 * taken by another file. A log or journal beside that would be played into it.
 */
function setAside(place: DataFolder, now: Date): void {
  const live = place.databaseFile;
  const isFile = holdsSomething(live);
  if (isFile) {
    const aside = nextBackup(place, 'setAside', now);
    for (const end of ['', ...BELONGS_TO_IT]) if (holdsSomething(live + end)) linkOrCopy(live + end, aside + end);
    syncFolder(place.backupsFolder);
  }
  for (const end of BESIDE) {
    // Without its database a log cannot be a backup, but may be all that is left of one.
    if (!isFile && end !== '-shm' && holdsSomething(live + end)) moveAside(live + end);
    else freeName(live + end);
  }
  if (!isFile) freeName(live);
  syncFolder(place.folder);
}

function holdsSomething(path: string): boolean {
  return whatStandsAt(path) === 'file' && sizeOf(path) > 0;
}

/** A second name for the same content needs no room on a full disk; where there are no links, a copy. */
function linkOrCopy(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch {
    copyDurably(from, to);
  }
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

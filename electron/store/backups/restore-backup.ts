/** Puts a backup in the place of the live database, which is set aside whole, never repaired or thrown away. */

import { linkSync, renameSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import { copyDurably, syncFolder } from '../../output/durable-files.ts';
import { BELONGS_TO_IT, BESIDE, type DataFolder, folderProblem } from '../file/data-folder.ts';
import { storageProblem, storageProblemOf } from '../file/faults.ts';
import { freeName, moveAside, whatStandsAt } from '../file/names-in-use.ts';
import { listBackups, nextBackup, rotate } from './backups.ts';
import { checkCopy, makeSelfContained } from './check-copy.ts';

interface Wanted {
  readonly name: string;
  readonly now: Date;
  /** The live database was open and sound until now, so another process may have it open too. */
  readonly wasOpen: boolean;
}

/**
 * The live database must be closed in this process. The backup is copied and checked before the live file is touched;
 * the last step is one rename, so a crash leaves the one or the other. A folder or a link that stands in the place of a
 * file keeps what it holds, under another name. Problems: notFound, and storage faults.
 */
export function restoreBackup(place: DataFolder, wanted: Wanted): Result<Record<never, never>, Problem> {
  const live = place.databaseFile;
  const copy = `${live}.restoring`;
  let at = join(place.backupsFolder, wanted.name);
  try {
    const trouble = folderProblem(place);
    if (trouble) return failure(trouble);
    if (!listBackups(place).some((backup) => backup.name === wanted.name))
      return failure({ kind: 'notFound', what: 'backup', id: wanted.name });
    clearAway(copy);
    try {
      takeCopy(at, copy);
      at = live;
      if (wanted.wasOpen && isOpenElsewhere(live))
        return failure(storageProblem('busy', live, 'another window or process has it open'));
      setAside(place, wanted.now);
      renameSync(copy, live);
      syncFolder(place.folder);
      rotate(place);
      return success({});
    } finally {
      clearAway(copy);
    }
  } catch (cause) {
    const problem = storageProblemOf(cause, at);
    if (problem === null) throw cause;
    return failure(problem);
  }
}

function takeCopy(from: string, to: string): void {
  copyDurably(from, to);
  for (const end of BELONGS_TO_IT) if (whatStandsAt(from + end) === 'file') copyDurably(from + end, to + end);
  makeSelfContained(to);
  checkCopy(to);
}

/** What a copy that did not become the live file left behind, now or in a run that was cut off. */
function clearAway(copy: string): void {
  for (const end of ['', ...BESIDE]) freeName(copy + end);
}

/** A database leaves WAL mode only for the sole connection to it. */
function isOpenElsewhere(file: string): boolean {
  const db = new Database(file, { timeout: 0 });
  try {
    db.pragma('journal_mode = DELETE');
    return false;
  } catch (cause) {
    const problem = storageProblemOf(cause, file);
    if (problem?.kind !== 'storage' || problem.fault !== 'busy') throw cause;
    return true;
  } finally {
    db.close();
  }
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
  return whatStandsAt(path) === 'file' && statSync(path).size > 0;
}

/** A second name for the same content needs no room on a full disk; where there are no links, a copy. */
function linkOrCopy(from: string, to: string): void {
  try {
    linkSync(from, to);
  } catch (cause) {
    if (!canCopyInstead(cause)) throw cause;
    copyDurably(from, to);
  }
}

function canCopyInstead(cause: unknown): boolean {
  const code = (cause as NodeJS.ErrnoException).code ?? '';
  return ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV', 'EINVAL'].includes(code);
}

/** Puts a backup in the place of the live database, which is set aside whole, never repaired or thrown away. */

import { existsSync, linkSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import { copyDurably, syncFolder } from '../../output/durable-files.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { storageProblem, storageProblemOf } from '../file/faults.ts';
import { checkCopy, listBackups, makeSelfContained, nextBackup, rotate } from './backups.ts';

interface Wanted {
  readonly name: string;
  readonly now: Date;
  /** The live database was open and sound until now, so another process may have it open too. */
  readonly wasOpen: boolean;
}

/**
 * The live database must be closed in this process. The backup is copied and checked before the live file is touched;
 * the last step is one rename, so a crash leaves the one or the other. Problems: notFound, and storage faults.
 */
export function restoreBackup(
  place: DataFolder,
  { name, now, wasOpen }: Wanted,
): Result<Record<never, never>, Problem> {
  if (!listBackups(place).some((backup) => backup.name === name)) {
    return failure({ kind: 'notFound', what: 'backup', id: name });
  }
  const copy = `${place.databaseFile}.restoring`;
  let at = join(place.backupsFolder, name);
  try {
    takeCopy(at, copy);
    at = place.databaseFile;
    if (wasOpen && isOpenElsewhere(at))
      return failure(storageProblem('busy', at, 'another window or process has it open'));
    setAside(place, now);
    // A log left beside the new file would be replayed into it. The old one was set aside with its database.
    for (const end of ['-wal', '-shm']) rmSync(at + end, { force: true });
    renameSync(copy, at);
    syncFolder(place.folder);
    rotate(place);
    return success({});
  } catch (cause) {
    const problem = storageProblemOf(cause, at);
    if (problem === null) throw cause;
    return failure(problem);
  } finally {
    for (const end of ['', '-wal', '-shm', '-journal']) rmSync(copy + end, { force: true });
  }
}

function takeCopy(from: string, to: string): void {
  copyDurably(from, to);
  if (existsSync(`${from}-wal`)) copyDurably(`${from}-wal`, `${to}-wal`);
  makeSelfContained(to);
  checkCopy(to);
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

/** A second name for the same content needs no room on a full disk; where there are no links, a copy. */
function setAside(place: DataFolder, now: Date): void {
  if (!existsSync(place.databaseFile)) return;
  const aside = nextBackup(place, 'setAside', now);
  for (const end of ['', '-wal']) {
    const live = place.databaseFile + end;
    if (!existsSync(live) || statSync(live).size === 0) continue;
    try {
      linkSync(live, aside + end);
    } catch (cause) {
      if (!canCopyInstead(cause)) throw cause;
      copyDurably(live, aside + end);
    }
  }
  syncFolder(place.backupsFolder);
}

function canCopyInstead(cause: unknown): boolean {
  const code = (cause as NodeJS.ErrnoException).code ?? '';
  return ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK', 'EXDEV', 'EINVAL'].includes(code);
}

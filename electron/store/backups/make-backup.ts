/** Making backups: copied through SQLite, opened and checked before they get their name. */

import { readFileSync, renameSync, rmSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { basename, join } from 'node:path';
import type Database from 'better-sqlite3';
import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import { syncFile, syncFolder } from '../../output/durable-files.ts';
import { beginPrivateFile, makePrivateFolder } from '../../output/private-files.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { expectedProblem } from '../file/faults.ts';
import {
  type Backup,
  type BackupKind,
  kindForNow,
  listBackups,
  nextBackup,
  removeUnfinished,
  rotate,
  UNFINISHED,
} from './backups.ts';
import { checkCopy, copyChecks, makeSelfContained } from './check-copy.ts';
import { betweenCalls } from './steps.ts';

/** Pages copied before the calls of the page get their turn: a quarter of a megabyte. */
const PAGES_A_STEP = 64;

/** A backup of the open database, copied page by page between other work. Problems: storage faults. */
export async function backUp(db: Database.Database, place: DataFolder, now: Date): Promise<Result<Backup, Problem>> {
  try {
    return success(await makeBackup(db, place, now));
  } catch (cause) {
    return failure(expectedProblem(cause, place.backupsFolder));
  }
}

/** What the newest backup holds, as `contentMark` has it; null: there is none, or it is not what it was when it was made. */
export async function newestMark(place: DataFolder): Promise<string | null> {
  try {
    const newest = listBackups(place).find(({ kind }) => kind !== 'setAside');
    if (!newest) return null;
    const { mark, isWhole } = await betweenCalls(copyChecks(join(place.backupsFolder, newest.name)));
    return isWhole || newest.kind === 'damaged' ? mark : null;
  } catch (cause) {
    expectedProblem(cause, place.backupsFolder);
    return null;
  }
}

async function makeBackup(db: Database.Database, place: DataFolder, now: Date): Promise<Backup> {
  const partial = beginBackup(place);
  try {
    await db.backup(partial, { progress: () => PAGES_A_STEP });
    makeSelfContained(partial);
    const { isWhole } = await betweenCalls(copyChecks(partial));
    await syncBetweenCalls(partial);
    return nameBackup(partial, place, { kind: isWhole ? kindForNow(place, now) : 'damaged', now });
  } catch (cause) {
    removeUnfinished(place);
    throw cause;
  }
}

/**
 * At once: nothing may come between this copy and the migration that follows. When the last such backup is the same to
 * the byte, as after a migration that failed, it is not made again. Throws what SQLite or the file system throws.
 */
export function backUpBeforeMigration(db: Database.Database, place: DataFolder, now: Date): void {
  const partial = beginBackup(place);
  try {
    db.prepare('VACUUM INTO ?').run(partial);
    makeSelfContained(partial);
    checkCopy(partial);
    const last = listBackups(place).find(({ kind }) => kind === 'beforeMigration');
    if (last && readFileSync(join(place.backupsFolder, last.name)).equals(readFileSync(partial))) rmSync(partial);
    else {
      syncFile(partial);
      nameBackup(partial, place, { kind: 'beforeMigration', now });
    }
  } catch (cause) {
    removeUnfinished(place);
    throw cause;
  }
}

/** Returns where the copy is made: what SQLite writes there is its owner's alone from its first byte on. */
function beginBackup(place: DataFolder): string {
  makePrivateFolder(place.backupsFolder);
  removeUnfinished(place);
  const partial = join(place.backupsFolder, `evenrun-${process.pid}${UNFINISHED}`);
  beginPrivateFile(partial);
  return partial;
}

/** On another thread: this one must not wait for megabytes to reach the disk. */
async function syncBetweenCalls(file: string): Promise<void> {
  const handle = await open(file, 'r+');
  await handle.sync().finally(() => handle.close());
}

/** Only a checked copy that is on the disk comes here. */
function nameBackup(
  partial: string,
  place: DataFolder,
  made: { readonly kind: BackupKind; readonly now: Date },
): Backup {
  const file = nextBackup(place, made.kind, made.now);
  renameSync(partial, file);
  syncFolder(place.backupsFolder);
  rotate(place);
  const backup = listBackups(place).find(({ name }) => name === basename(file));
  if (!backup) throw new Error(`the backup ${file} is not in its folder`);
  return backup;
}

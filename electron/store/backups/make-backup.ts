/** Making backups: copied through SQLite, opened and checked before they get their name. */

import { renameSync } from 'node:fs';
import { open } from 'node:fs/promises';
import type Database from 'better-sqlite3';
import { syncFile, syncFolder } from '../../output/durable-files.ts';
import { beginPrivateFile } from '../../output/private-files.ts';
import type { DataFolder } from '../file/data-folder.ts';
import type { BackupKind } from './backup-names.ts';
import { type Backup, listBackups, nextBackup, removeUnfinished, rotate, UNFINISHED } from './backups.ts';
import { checkCopy, copyChecks, makeSelfContained } from './check-copy.ts';
import { betweenCalls } from './steps.ts';

/** Pages copied before the calls of the page get their turn: a quarter of a megabyte. */
const PAGES_A_STEP = 64;

interface Wanted {
  readonly kind: BackupKind;
  readonly now: Date;
}

/** Copies the open database page by page between other work. Rejects with what SQLite or the file system throws. */
export async function makeBackup(db: Database.Database, place: DataFolder, { kind, now }: Wanted): Promise<Backup> {
  const file = beginBackup(place, kind, now);
  try {
    await db.backup(file + UNFINISHED, { progress: () => PAGES_A_STEP });
    makeSelfContained(file + UNFINISHED);
    await betweenCalls(copyChecks(file + UNFINISHED));
    await syncBetweenCalls(file + UNFINISHED);
    return nameBackup(file, place);
  } catch (cause) {
    removeUnfinished(place);
    throw cause;
  }
}

/** As makeBackup, at once: nothing may come between this copy and the migration that follows. */
export function backUpBeforeMigration(db: Database.Database, place: DataFolder, now: Date): Backup {
  const file = beginBackup(place, 'beforeMigration', now);
  try {
    db.prepare('VACUUM INTO ?').run(file + UNFINISHED);
    makeSelfContained(file + UNFINISHED);
    checkCopy(file + UNFINISHED);
    syncFile(file + UNFINISHED);
    return nameBackup(file, place);
  } catch (cause) {
    removeUnfinished(place);
    throw cause;
  }
}

/** Returns the name that the backup will have; what SQLite writes until then is its owner's alone from its first byte on. */
function beginBackup(place: DataFolder, kind: BackupKind, now: Date): string {
  const file = nextBackup(place, kind, now);
  removeUnfinished(place);
  beginPrivateFile(file + UNFINISHED);
  return file;
}

/** On another thread: this one must not wait for megabytes to reach the disk. */
async function syncBetweenCalls(file: string): Promise<void> {
  const handle = await open(file, 'r+');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Only a sound copy that is on the disk comes here. */
function nameBackup(file: string, place: DataFolder): Backup {
  renameSync(file + UNFINISHED, file);
  syncFolder(place.backupsFolder);
  rotate(place);
  const name = file.slice(place.backupsFolder.length + 1);
  const made = listBackups(place).find((backup) => backup.name === name);
  if (!made) throw new Error(`the backup ${name} is not in its folder`);
  return made;
}

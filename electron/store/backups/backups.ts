/** Backups: made through SQLite, opened and checked before they get their name, and rotated by number. */

import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { open } from 'node:fs/promises';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { syncFile, syncFolder } from '../../output/durable-files.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { DamagedRow } from '../file/faults.ts';
import { identityProblem, readIdentity } from '../file/identity.ts';
import { checkInSteps } from '../rows/check-database.ts';
import { SCHEMA_VERSION } from '../schema/migrations.ts';
import { type BackupKind, type BackupName, backupName, parseBackupName } from './backup-names.ts';
import { atOnce, betweenCalls, type Steps } from './steps.ts';

/** How many of each kind are kept; the oldest go. */
const KEPT: Readonly<Record<BackupKind, number>> = { recent: 10, daily: 8, beforeMigration: 5, setAside: 5 };
const UNFINISHED = '.partial';
/** Pages copied before the calls of the page get their turn: a quarter of a megabyte. */
const PAGES_A_STEP = 64;

export interface Backup extends BackupName {
  readonly bytes: number;
}

/** Newest first. A folder that is not there holds none. */
export function listBackups({ backupsFolder }: DataFolder): readonly Backup[] {
  if (!existsSync(backupsFolder)) return [];
  return readdirSync(backupsFolder)
    .flatMap((name) => parseBackupName(name) ?? [])
    .flatMap((backup) => {
      // Another process may rotate a backup away between the two looks.
      const file = statSync(join(backupsFolder, backup.name), { throwIfNoEntry: false });
      return file === undefined ? [] : { ...backup, bytes: file.size };
    })
    .sort((a, b) => b.number - a.number);
}

/** The file that the next backup of this kind will be. */
export function nextBackup(place: DataFolder, kind: BackupKind, at: Date): string {
  mkdirSync(place.backupsFolder, { recursive: true });
  const number = (listBackups(place)[0]?.number ?? 0) + 1;
  return join(place.backupsFolder, backupName({ number, kind, at }));
}

/** The first backup of a day is kept longer than the others. */
export function kindForNow(place: DataFolder, now: Date): 'recent' | 'daily' {
  const today = now.toISOString().slice(0, 10);
  return listBackups(place).some((b) => b.kind === 'daily' && b.takenAt.startsWith(today)) ? 'recent' : 'daily';
}

interface Wanted {
  readonly kind: BackupKind;
  readonly now: Date;
}

/** Copies the open database page by page between other work. Rejects with what SQLite or the file system throws. */
export async function makeBackup(db: Database.Database, place: DataFolder, { kind, now }: Wanted): Promise<Backup> {
  const file = nextBackup(place, kind, now);
  removeUnfinished(place);
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
  const file = nextBackup(place, 'beforeMigration', now);
  removeUnfinished(place);
  try {
    db.prepare('VACUUM INTO ?').run(file + UNFINISHED);
    return finishBackup(file, place);
  } catch (cause) {
    removeUnfinished(place);
    throw cause;
  }
}

/** Opens and checks what was copied; only a sound copy that is on the disk gets its name. */
function finishBackup(file: string, place: DataFolder): Backup {
  makeSelfContained(file + UNFINISHED);
  checkCopy(file + UNFINISHED);
  syncFile(file + UNFINISHED);
  return nameBackup(file, place);
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

function nameBackup(file: string, place: DataFolder): Backup {
  renameSync(file + UNFINISHED, file);
  syncFolder(place.backupsFolder);
  rotate(place);
  const name = file.slice(place.backupsFolder.length + 1);
  const made = listBackups(place).find((backup) => backup.name === name);
  if (!made) throw new Error(`the backup ${name} is not in its folder`);
  return made;
}

/** Takes in a write-ahead log beside the copy, if there is one, and leaves a single file that needs no other. */
export function makeSelfContained(file: string): void {
  const db = new Database(file);
  try {
    db.pragma('journal_mode = DELETE');
  } finally {
    db.close();
  }
}

/** Throws DamagedRow, or what SQLite throws, unless the file is a sound database of ours. Returns its fingerprint. */
export function checkCopy(file: string): string {
  return atOnce(copyChecks(file));
}

/** As checkCopy, in steps. */
export function* copyChecks(file: string): Steps<string> {
  const db = new Database(file, { readonly: true });
  try {
    const identity = readIdentity(db);
    const problem = identityProblem(identity, file);
    if (problem || identity.isEmpty) throw new DamagedRow('the copy is not a database of this program');
    // The rows of an older version have other columns; they are checked after the migration.
    if (identity.version < SCHEMA_VERSION) return checkPages(db);
    const soundness = yield* checkInSteps(db);
    if (soundness.findings.length > 0) throw new DamagedRow(soundness.findings.join('; '));
    return soundness.fingerprint;
  } finally {
    db.close();
  }
}

function checkPages(db: Database.Database): string {
  const answer: unknown = db.pragma('quick_check(1)', { simple: true });
  if (answer !== 'ok') throw new DamagedRow(String(answer));
  return '';
}

export function rotate(place: DataFolder): void {
  const kept: Record<BackupKind, number> = { recent: 0, daily: 0, beforeMigration: 0, setAside: 0 };
  for (const backup of listBackups(place)) {
    kept[backup.kind] += 1;
    if (kept[backup.kind] <= KEPT[backup.kind]) continue;
    for (const end of ['', '-wal']) rmSync(join(place.backupsFolder, backup.name + end), { force: true });
  }
}

/** What a crash left behind halfway. */
function removeUnfinished({ backupsFolder }: DataFolder): void {
  for (const name of readdirSync(backupsFolder)) {
    if (name.includes(UNFINISHED)) rmSync(join(backupsFolder, name), { force: true });
  }
}

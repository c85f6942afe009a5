/** The backups there are: listed and numbered, and the oldest let go. */

import { existsSync, lstatSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { makePrivateFolder } from '../../output/private-files.ts';
import { BELONGS_TO_IT, type DataFolder } from '../file/data-folder.ts';
import { type BackupKind, type BackupName, backupName, parseBackupName } from './backup-names.ts';

/** How many of each kind are kept; the oldest go. */
const KEPT: Readonly<Record<BackupKind, number>> = { recent: 10, daily: 8, beforeMigration: 5, setAside: 5 };
/** Ends the name of a file that is not a backup yet. */
export const UNFINISHED = '.partial';

export interface Backup extends BackupName {
  readonly bytes: number;
}

/**
 * Newest first: plain files only, for what a link leads to is not ours. A folder that is not there holds none; throws
 * what the file system throws when it cannot be read.
 */
export function listBackups({ backupsFolder }: DataFolder): readonly Backup[] {
  return namesIn(backupsFolder).flatMap((backup) => {
    // Another process may rotate a backup away between the two looks.
    const file = lstatSync(join(backupsFolder, backup.name), { throwIfNoEntry: false });
    return file?.isFile() ? { ...backup, bytes: file.size } : [];
  });
}

function namesIn(backupsFolder: string): readonly BackupName[] {
  if (!existsSync(backupsFolder)) return [];
  return readdirSync(backupsFolder)
    .flatMap((name) => parseBackupName(name) ?? [])
    .sort((a, b) => b.number - a.number);
}

/** The file that the next backup of this kind will be. */
export function nextBackup(place: DataFolder, kind: BackupKind, at: Date): string {
  makePrivateFolder(place.backupsFolder);
  const number = (namesIn(place.backupsFolder)[0]?.number ?? 0) + 1;
  return join(place.backupsFolder, backupName({ number, kind, at }));
}

/** The first backup of a day is kept longer than the others. */
export function kindForNow(place: DataFolder, now: Date): 'recent' | 'daily' {
  const today = now.toISOString().slice(0, 10);
  return listBackups(place).some((b) => b.kind === 'daily' && b.takenAt.startsWith(today)) ? 'recent' : 'daily';
}

export function rotate(place: DataFolder): void {
  const kept: Record<BackupKind, number> = { recent: 0, daily: 0, beforeMigration: 0, setAside: 0 };
  for (const backup of listBackups(place)) {
    kept[backup.kind] += 1;
    if (kept[backup.kind] <= KEPT[backup.kind]) continue;
    for (const end of ['', ...BELONGS_TO_IT]) rmSync(join(place.backupsFolder, backup.name + end), { force: true });
  }
}

/** Takes away what a crash left behind halfway. */
export function removeUnfinished({ backupsFolder }: DataFolder): void {
  for (const entry of readdirSync(backupsFolder, { withFileTypes: true })) {
    if (entry.isFile() && entry.name.includes(UNFINISHED)) rmSync(join(backupsFolder, entry.name), { force: true });
  }
}

/** The backups there are: named, listed and numbered, and the oldest let go. */

import { existsSync, lstatSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import type { ResponseOf } from '../../bridge/contract.ts';
import { makePrivateFolder } from '../../output/private-files.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { BELONGS_TO_IT } from '../file/names-in-use.ts';

/** A backup as the page lists it; `takenAt` is ISO 8601, UTC, and a label: order never depends on the clock. */
export type Backup = Readonly<ResponseOf<'makeBackup'>>;
export type BackupKind = Backup['kind'];

/**
 * How many of each kind are kept; the oldest go. Copies of a database with damaged rows are a kind of their own, so that
 * none of them takes the place of one that is whole.
 */
const KEPT: Readonly<Record<BackupKind, number>> = {
  recent: 10,
  daily: 8,
  beforeMigration: 5,
  setAside: 5,
  damaged: 5,
};
/** Ends the name of a file that is not a backup yet. */
export const UNFINISHED = '.partial';

const KINDS = Object.keys(KEPT).join('|');
const PATTERN = new RegExp(
  `^evenrun-(\\d{6,12})-(${KINDS})-(\\d{4}-\\d\\d-\\d\\d)T(\\d\\d)-(\\d\\d)-(\\d\\d)Z\\.sqlite$`,
);

interface BackupName extends Pick<Backup, 'name' | 'kind' | 'takenAt'> {
  /** Grows by one with every backup. */
  readonly number: number;
}

export function backupName(parts: { readonly number: number; readonly kind: BackupKind; readonly at: Date }): string {
  const label = parts.at.toISOString().slice(0, 19).replaceAll(':', '-');
  return `evenrun-${String(parts.number).padStart(6, '0')}-${parts.kind}-${label}Z.sqlite`;
}

/** Null: not the name of a backup. Names are the only way in which the page names a file, so nothing else may pass. */
export function parseBackupName(name: string): BackupName | null {
  const [, number, kind, day, hour, minute, second] = PATTERN.exec(name) ?? [];
  if (number === undefined) return null;
  return { name, number: Number(number), kind: kind as BackupKind, takenAt: `${day}T${hour}:${minute}:${second}Z` };
}

/**
 * Newest first: plain files only, for what a link leads to is not ours. A folder that is not there holds none; throws
 * what the file system throws when it cannot be read.
 */
export function listBackups({ backupsFolder }: DataFolder): readonly Backup[] {
  return namesIn(backupsFolder).flatMap(({ name, kind, takenAt }) => {
    // Another process may rotate a backup away between the two looks.
    const file = lstatSync(join(backupsFolder, name), { throwIfNoEntry: false });
    return file?.isFile() ? { name, kind, takenAt, bytes: file.size } : [];
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
  const backups = listBackups(place);
  const old = Object.entries(KEPT).flatMap(([kind, count]) =>
    backups.filter((each) => each.kind === kind).slice(count),
  );
  for (const { name } of old)
    for (const end of ['', ...BELONGS_TO_IT]) rmSync(join(place.backupsFolder, name + end), { force: true });
}

/** Takes away what a crash left behind halfway. */
export function removeUnfinished({ backupsFolder }: DataFolder): void {
  for (const entry of readdirSync(backupsFolder, { withFileTypes: true })) {
    if (entry.isFile() && entry.name.includes(UNFINISHED)) rmSync(join(backupsFolder, entry.name), { force: true });
  }
}

/** A backup of the open database: at once, or only if something was entered since the newest one. */

import { join } from 'node:path';
import Database from 'better-sqlite3';
import { failure, type Problem, type Result, success } from '../../../core/index.ts';
import type { Connection } from '../file/connection.ts';
import type { DataFolder } from '../file/data-folder.ts';
import { storageProblemOf } from '../file/faults.ts';
import { setReaderPragmas } from '../file/pragmas.ts';
import { rowChecks } from '../rows/checksums.ts';
import { type Backup, kindForNow, listBackups } from './backups.ts';
import { copyChecks } from './check-copy.ts';
import { makeBackup } from './make-backup.ts';
import { betweenCalls } from './steps.ts';

interface Kept {
  readonly connection: Connection;
  readonly place: DataFolder;
  readonly clock: () => Date;
}

/** Problems: storage faults. */
export async function backUp({ connection, place, clock }: Kept): Promise<Result<Backup, Problem>> {
  const db = connection.use<Database.Database, Problem>((tables) => success(tables.db));
  if (!db.ok) return db;
  return orProblem(place.backupsFolder, () => {
    const now = clock();
    return makeBackup(db.value, place, { kind: kindForNow(place, now), now });
  });
}

/** Null: nothing was entered since the newest backup, or the database is not open to be written in. */
export async function backUpIfChanged(kept: Kept): Promise<Result<Backup | null, Problem>> {
  if (!kept.connection.isWritable) return success(null);
  const present = await presentFingerprint(kept.place);
  if (!present.ok) return present;
  return (await newestFingerprint(kept.place)) === present.value ? success(null) : backUp(kept);
}

/** Over a connection of its own: a read that lasts while edits come in must not stand in their way. */
function presentFingerprint({ databaseFile }: DataFolder): Promise<Result<string, Problem>> {
  return orProblem(databaseFile, async () => {
    const reader = new Database(databaseFile, { readonly: true });
    try {
      setReaderPragmas(reader);
      reader.exec('BEGIN');
      return (await betweenCalls(rowChecks(reader))).fingerprint;
    } finally {
      reader.close();
    }
  });
}

/** Null: there is no backup, or the newest is not sound, so another is due. */
async function newestFingerprint(place: DataFolder): Promise<string | null> {
  const read = await orProblem(place.backupsFolder, async () => {
    const newest = listBackups(place).find((backup) => backup.kind !== 'setAside');
    return newest ? betweenCalls(copyChecks(join(place.backupsFolder, newest.name))) : null;
  });
  return read.ok ? read.value : null;
}

/** What the disk or the database throws is a problem with the file; anything else is a defect. */
async function orProblem<Value>(file: string, act: () => Promise<Value>): Promise<Result<Value, Problem>> {
  try {
    return success(await act());
  } catch (cause) {
    const problem = storageProblemOf(cause, file);
    if (problem === null) throw cause;
    return failure(problem);
  }
}

/** The one place that opens the live database: nothing is written before the file is known to be ours and readable. */

import { rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { failure, type Result, type StorageProblem, success } from '../../../core/index.ts';
import { backUpBeforeMigration, listBackups } from '../backups/backups.ts';
import { checkDatabase } from '../rows/check-database.ts';
import { migrate, SCHEMA_VERSION } from '../schema/migrations.ts';
import { lastFullCheck, upkeepTable } from '../small-tables.ts';
import { openTables, type Tables } from '../tables.ts';
import { checkDataFolder, type DataFolder, synchronisedFolderNotice } from './data-folder.ts';
import { storageProblem, storageProblemOf } from './faults.ts';
import { identityProblem, readIdentity } from './identity.ts';
import { playBackJournal } from './leftover-journal.ts';
import { pragmaMismatches, setPragmas, setReaderPragmas } from './pragmas.ts';

export interface OpenedDatabase {
  readonly tables: Tables;
  /** What the user should know, in sentences. */
  readonly notices: readonly string[];
  /** What the user's entries came to when they were checked. */
  readonly fingerprint: string;
}

const WEEK_MS = 7 * 24 * 3600 * 1000;

/**
 * Looks at the file through a connection that cannot write, and only then opens, migrates and proves it. A file that is
 * refused is left byte for byte as it was. Whatever stands in the way is a problem; only defects of the program are thrown.
 */
export function openDatabase(place: DataFolder, now: Date): Result<OpenedDatabase, StorageProblem> {
  let db: Database.Database | null = null;
  try {
    const refusal = checkDataFolder(place) ?? missingProblem(place);
    if (refusal) return failure(refusal);
    separateFromAside(place);
    const looked = lookWithoutWriting(place, now);
    if (!looked.ok) return looked;
    db = new Database(place.databaseFile);
    setPragmas(db);
    const opened = bringUp(db, place, { ...looked.value, now });
    if (!opened.ok) db.close();
    return opened;
  } catch (cause) {
    db?.close();
    const problem = storageProblemOf(cause, place.databaseFile);
    if (problem === null) throw cause;
    return failure(problem);
  }
}

/** A database that is gone while its backups are there was lost, not never made. */
function missingProblem(place: DataFolder): StorageProblem | null {
  if (sizeOf(place.databaseFile) > 0 || listBackups(place).length === 0) return null;
  return storageProblem('missing', place.databaseFile, 'the file is missing or empty, though backups of it exist');
}

/** A crash while a backup was being restored can leave the live file with a second name; a database must have one. */
function separateFromAside(place: DataFolder): void {
  const live = statSync(place.databaseFile, { throwIfNoEntry: false });
  if (!live || live.nlink < 2) return;
  for (const { name } of listBackups(place)) {
    const aside = join(place.backupsFolder, name);
    if (statSync(aside).ino === live.ino) rmSync(aside);
  }
}

/** What was found before the file was opened for writing. */
interface Looked {
  readonly version: number;
  /** When every index was last compared with its table, this time included. */
  readonly fullCheckAt: string;
  /** Null: of an older version, so there was nothing yet to check rows by. */
  readonly fingerprint: string | null;
  /** As `Soundness` has it. */
  readonly ofHeaders: readonly string[];
}

/** Identity first, then, when it is of this version, its soundness. A readonly connection leaves the log alone too. */
function lookWithoutWriting(place: DataFolder, now: Date): Result<Looked, StorageProblem> {
  const file = place.databaseFile;
  const unchecked = { version: 0, fullCheckAt: now.toISOString(), fingerprint: null, ofHeaders: [] };
  const unplayable = playBackJournal(file);
  if (unplayable) return failure(unplayable);
  if (sizeOf(file) === 0) return success(unchecked);
  // A clean end leaves no log, so one with something in it tells of an end that was not, or of another process.
  const wasUnclean = sizeOf(`${file}-wal`) > 0;
  const reader = new Database(file, { readonly: true });
  try {
    setReaderPragmas(reader);
    const identity = readIdentity(reader);
    const stranger = identityProblem(identity, file);
    if (stranger) return failure(stranger);
    if (identity.version < SCHEMA_VERSION) return success({ ...unchecked, version: identity.version });
    const lastFull = lastFullCheck(reader);
    const isFull = wasUnclean || isOverdue(lastFull, now);
    const { findings, ofHeaders, fingerprint } = checkDatabase(reader, isFull);
    if (findings.length > 0) return failure(storageProblem('corrupt', file, findings.join('; ')));
    const fullCheckAt = isFull ? now.toISOString() : lastFull;
    return success({ version: identity.version, fullCheckAt, fingerprint, ofHeaders });
  } finally {
    reader.close();
  }
}

/** Migrates what is older, and makes a first commit to see that the database takes writes as it should. */
function bringUp(
  db: Database.Database,
  place: DataFolder,
  found: Looked & { readonly now: Date },
): Result<OpenedDatabase, StorageProblem> {
  const file = place.databaseFile;
  let { fingerprint } = found;
  if (found.version > 0 && found.version < SCHEMA_VERSION) backUpBeforeMigration(db, place, found.now);
  if (fingerprint === null) {
    migrate(db);
    const migrated = checkDatabase(db, true);
    if (migrated.findings.length > 0) return failure(storageProblem('corrupt', file, migrated.findings.join('; ')));
    fingerprint = migrated.fingerprint;
  }
  upkeepTable(db).countOpening(found.fullCheckAt);
  // Only now: the library changes `synchronous` back with the first write of a connection.
  const mismatches = pragmaMismatches(db);
  if (mismatches.length > 0) return failure(storageProblem('ioError', file, mismatches.join('; ')));
  const notices = [synchronisedFolderNotice(place.folder), damageNotice(found.ofHeaders)];
  return success({ tables: openTables(db), notices: notices.filter((notice) => notice !== null), fingerprint });
}

function damageNotice(ofHeaders: readonly string[]): string | null {
  if (ofHeaders.length === 0) return null;
  return `Something kept of single headers is damaged (${ofHeaders.join('; ')}). A header that it concerns says so when it is opened; all others are as they were. A backup may hold it whole.`;
}

/** A clock that was set back must not put the check off for years. */
function isOverdue(lastFull: string, now: Date): boolean {
  return !(Math.abs(now.getTime() - Date.parse(lastFull)) < WEEK_MS);
}

function sizeOf(file: string): number {
  return statSync(file, { throwIfNoEntry: false })?.size ?? 0;
}

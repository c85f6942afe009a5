/** The one place that opens the live database: nothing is written before the file is known to be ours and readable. */

import { statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { failure, type Result, type StorageProblem, success } from '../../../core/index.ts';
import { beginPrivateFile } from '../../output/private-files.ts';
import { backUpBeforeMigration } from '../backups/make-backup.ts';
import { checkDatabase, damageNotices } from '../rows/check-database.ts';
import { migrate, SCHEMA_VERSION } from '../schema/migrations.ts';
import { lastFullCheck, upkeepTable } from '../small-tables.ts';
import { openTables, type Tables } from '../tables.ts';
import { isNothing, lostProblem, missingProblem, separateFromAside } from './beside-backups.ts';
import { checkDataFolder, type DataFolder, keepFolderPrivate, noticesAbout, writeProblem } from './data-folder.ts';
import { openingProblemOf, storageProblem } from './faults.ts';
import { identityProblem, readIdentity } from './identity.ts';
import { playBackJournal } from './leftover-journal.ts';
import { pragmaMismatches, setPragmas, setReaderPragmas } from './pragmas.ts';

export interface OpenedDatabase {
  readonly tables: Tables;
  /** What the user should know, in sentences. */
  readonly notices: readonly string[];
  /** What the user's entries came to when they were checked. */
  readonly fingerprint: string;
  /** Null: takes writes. Otherwise why not; it can be looked at, and everything that writes is refused. */
  readonly cannotWrite: StorageProblem | null;
}

const WEEK_MS = 7 * 24 * 3600 * 1000;

/**
 * Looks at the file through a connection that cannot write, and only then opens, migrates and proves it. A file that is
 * refused is left byte for byte as it was. Whatever stands in the way is a problem, and nothing is thrown: the problem leads to the backups.
 */
export function openDatabase(place: DataFolder, now: Date): Result<OpenedDatabase, StorageProblem> {
  let db: Database.Database | null = null;
  try {
    const refusal = checkDataFolder(place) ?? writeProblem(place) ?? missingProblem(place);
    if (refusal) return failure(refusal);
    keepFolderPrivate(place);
    separateFromAside(place);
    const looked = lookWithoutWriting(place, now);
    if (!looked.ok) return looked;
    // SQLite gives its other files the mode of this one.
    if (looked.value.version === 0) beginPrivateFile(place.databaseFile);
    db = new Database(place.databaseFile);
    setPragmas(db);
    const opened = bringUp(db, place, { ...looked.value, now });
    if (!opened.ok) db.close();
    return opened;
  } catch (cause) {
    db?.close();
    return failure(openingProblemOf(cause, place.databaseFile));
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
  if (isNothing(file)) return success(unchecked);
  // A clean end leaves no log, so one with something in it tells of an end that was not, or of another process.
  const wasUnclean = sizeOf(`${file}-wal`) > 0;
  const reader = new Database(file, { readonly: true });
  try {
    setReaderPragmas(reader);
    const identity = readIdentity(reader);
    const stranger = identityProblem(identity, file) ?? (identity.isEmpty ? lostProblem(place) : null);
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
  const notices = [...noticesAbout(place), ...damageNotices(found.ofHeaders)];
  return success({ tables: openTables(db), notices, fingerprint, cannotWrite: null });
}

/** A clock that was set back must not put the check off for years. */
function isOverdue(lastFull: string, now: Date): boolean {
  return !(Math.abs(now.getTime() - Date.parse(lastFull)) < WEEK_MS);
}

function sizeOf(file: string): number {
  return statSync(file, { throwIfNoEntry: false })?.size ?? 0;
}

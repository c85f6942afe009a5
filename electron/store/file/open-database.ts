/** The one place that opens the live database: nothing is written before the file is known to be ours and readable. */

import Database from 'better-sqlite3';
import { failure, type Result, type StorageProblem, success } from '../../../core/index.ts';
import { beginPrivateFile } from '../../output/private-files.ts';
import { listBackups } from '../backups/backups.ts';
import { backUpBeforeMigration } from '../backups/make-backup.ts';
import { separateFromAside } from '../backups/restore-backup.ts';
import { damageNotices } from '../rows/check-database.ts';
import { migrate, SCHEMA_VERSION } from '../schema/migrations.ts';
import { settingsTable } from '../settings-table.ts';
import { openTables, type Tables } from '../tables.ts';
import { checkDataFolder, type DataFolder, keepFolderPrivate, noticesAbout, writeProblem } from './data-folder.ts';
import { openingProblemOf, storageProblem } from './faults.ts';
import { identityProblem, playBackJournal, readIdentity, rowDamage } from './identity.ts';
import { isNothing, sizeOf } from './names-in-use.ts';
import { pragmaMismatches, setPragmas, setReaderPragmas } from './pragmas.ts';

export interface OpenedDatabase {
  readonly tables: Tables;
  /** What the user should know, in sentences. */
  readonly notices: readonly string[];
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
  /** In words; of an older version, there is nothing yet to check rows by. */
  readonly rowDamage: readonly string[];
}

/** Identity first, then, when it is of this version, its soundness. A readonly connection leaves the log alone too. */
function lookWithoutWriting(place: DataFolder, now: Date): Result<Looked, StorageProblem> {
  const file = place.databaseFile;
  const unchecked = { version: 0, fullCheckAt: now.toISOString(), rowDamage: [] };
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
    const { version } = identity;
    if (version < SCHEMA_VERSION) return success({ ...unchecked, version });
    const lastFull = settingsTable(reader).lastFullCheck();
    const isFull = wasUnclean || isOverdue(lastFull, now);
    const damage = rowDamage(reader, file, isFull ? 'full' : 'quick');
    const fullCheckAt = isFull ? unchecked.fullCheckAt : lastFull;
    return damage.ok ? success({ version, fullCheckAt, rowDamage: damage.value }) : damage;
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
  let damage: Result<readonly string[], StorageProblem> = success(found.rowDamage);
  if (found.version < SCHEMA_VERSION) {
    if (found.version > 0) backUpBeforeMigration(db, place, found.now);
    migrate(db);
    damage = rowDamage(db, file, 'full');
    if (!damage.ok) return damage;
  }
  const tables = openTables(db);
  tables.settings.countOpening(found.fullCheckAt);
  // Only now: the library changes `synchronous` back with the first write of a connection.
  const mismatches = pragmaMismatches(db);
  if (mismatches.length > 0) return failure(storageProblem('ioError', file, mismatches.join('; ')));
  return success({ tables, notices: [...noticesAbout(place), ...damageNotices(damage.value)], cannotWrite: null });
}

function missingProblem(place: DataFolder): StorageProblem | null {
  return isNothing(place.databaseFile) ? lostProblem(place) : null;
}

/** For a live file that is gone or holds nothing: while there are backups of it, it was lost, not never made. */
function lostProblem(place: DataFolder): StorageProblem | null {
  if (listBackups(place).length === 0) return null;
  return storageProblem('missing', place.databaseFile, 'the file is missing or empty, though backups of it exist');
}

/** A clock that was set back must not put the check off for years. */
function isOverdue(lastFull: string, now: Date): boolean {
  return !(Math.abs(now.getTime() - Date.parse(lastFull)) < WEEK_MS);
}

/** Opening a database that cannot be written: what its files hold is put together in memory, to be looked at and exported. */

import { readFileSync, statSync } from 'node:fs';
import Database from 'better-sqlite3';
import { failure, type Result, type StorageFault, type StorageProblem, success } from '../../../core/index.ts';
import { damageNotices } from '../rows/check-database.ts';
import { SCHEMA_VERSION } from '../schema/migrations.ts';
import { openTables } from '../tables.ts';
import { type DataFolder, folderProblem, noticesAbout } from './data-folder.ts';
import { openingProblemOf, storageProblem } from './faults.ts';
import { identityProblem, readIdentity, rowDamage } from './identity.ts';
import { isNothing, sizeOf } from './names-in-use.ts';
import type { OpenedDatabase } from './open-database.ts';
import { setReaderPragmas } from './pragmas.ts';
import { withLog } from './write-ahead-log.ts';

/** These stand in the way of writing, and need not stand in the way of reading. */
const READABLE: readonly StorageFault[] = ['readOnly', 'noPermission', 'diskFull'];

/** Bytes 18 and 19 of a database's header: which versions of the format may write and read it. 2 is with a log, 1 without. */
const FORMAT_AT = 18;

/**
 * `why` is what kept the database from being opened for writing. SQLite can open one that keeps a log only where it can
 * write beside it, so it is given the bytes instead. Nothing on disk is touched. A file that cannot be read either, or
 * is of an older version, fails with `why`; one that is not sound says that.
 */
export function openForLooking(place: DataFolder, why: StorageProblem): Result<OpenedDatabase, StorageProblem> {
  if (why.kind !== 'storage' || !READABLE.includes(why.fault) || folderProblem(place)) return failure(why);
  const file = place.databaseFile;
  let db: Database.Database | null = null;
  try {
    const bytes = wholeDatabase(file);
    if (bytes === null) return failure(why);
    const format = bytes.subarray(FORMAT_AT, FORMAT_AT + 2);
    if (!format.every((version) => version === 1 || version === 2))
      return failure(storageProblem('corrupt', file, 'the versions of its format are wrong'));
    // There is no log in memory.
    format.fill(1);
    db = new Database(bytes, { readonly: true });
    const opened = lookInto(db, place, why);
    if (!opened.ok) db.close();
    return opened;
  } catch (cause) {
    db?.close();
    const problem = openingProblemOf(cause, file);
    return failure(problem.kind === 'storage' && problem.fault === 'corrupt' ? problem : why);
  }
}

function lookInto(
  db: Database.Database,
  place: DataFolder,
  why: StorageProblem,
): Result<OpenedDatabase, StorageProblem> {
  setReaderPragmas(db);
  const identity = readIdentity(db);
  const stranger = identityProblem(identity, place.databaseFile);
  if (stranger) return failure(stranger);
  if (identity.version < SCHEMA_VERSION) return failure(why);
  const damage = rowDamage(db, place.databaseFile, 'quick');
  if (!damage.ok) return damage;
  const notices = [...noticesAbout(place), ...damageNotices(damage.value)];
  return success({ tables: openTables(db), notices, cannotWrite: why });
}

/**
 * Null: there is nothing to look at, or what is there cannot be told. That is so where a rollback journal would first
 * have to be played back, and while someone else writes.
 */
function wholeDatabase(file: string): Buffer | null {
  const before = marksOf(file);
  if (isNothing(file) || sizeOf(`${file}-journal`) > 0) return null;
  const pages = readFileSync(file);
  const whole = sizeOf(`${file}-wal`) > 0 ? withLog(pages, readFileSync(`${file}-wal`)) : pages;
  return marksOf(file) === before ? whole : null;
}

/** Changes when either file does. */
function marksOf(file: string): string {
  return [file, `${file}-wal`].map((path) => `${statSync(path, { throwIfNoEntry: false })?.mtimeMs}`).join(' ');
}

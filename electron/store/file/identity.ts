/** What a database file says it is, and whether it is sound: asked before anything is written to it. */

import { copyFileSync, existsSync, readFileSync } from 'node:fs';
import Database from 'better-sqlite3';
import { failure, type Result, type StorageProblem, success } from '../../../core/index.ts';
import { checkDatabase, type Depth } from '../rows/check-database.ts';
import { APPLICATION_ID, SCHEMA_VERSION } from '../schema/migrations.ts';
import { storageProblem } from './faults.ts';
import { freeDatabase, sizeOf } from './names-in-use.ts';

export interface Identity {
  readonly applicationId: number;
  readonly version: number;
  /** Nothing was ever made in it. */
  readonly isEmpty: boolean;
}

/** All of one moment: a file that another process is just making its own would otherwise seem to be a stranger's. */
export function readIdentity(db: Database.Database): Identity {
  const read = db.transaction(() => ({
    // A query first: with it the moment begins that both marks are then read from.
    isEmpty: db.prepare('SELECT 1 FROM sqlite_schema LIMIT 1').get() === undefined,
    applicationId: db.pragma('application_id', { simple: true }) as number,
    version: db.pragma('user_version', { simple: true }) as number,
  }));
  return read.deferred();
}

/** Null: a file of ours that this version can read, or an empty one. */
export function identityProblem(identity: Identity, file: string): StorageProblem | null {
  if (identity.isEmpty && identity.applicationId === 0 && identity.version === 0) return null;
  if (identity.applicationId !== APPLICATION_ID)
    return storageProblem('notOurs', file, 'another program made this file');
  // The number comes to a file with its tables, and is at least 1 from then on.
  if (identity.version < 1) return storageProblem('corrupt', file, `its version number is ${identity.version}`);
  if (identity.version <= SCHEMA_VERSION) return null;
  const detail = `the file is of version ${identity.version}, this program reads up to ${SCHEMA_VERSION}`;
  return storageProblem('newerVersion', file, detail);
}

/** What is wrong with single rows of a database of the present version. Problems: `corrupt`. */
export function rowDamage(
  db: Database.Database,
  file: string,
  depth: Depth,
): Result<readonly string[], StorageProblem> {
  const { ofFile, ofRows } = checkDatabase(db, depth);
  return ofFile.length > 0 ? failure(storageProblem('corrupt', file, ofFile.join('; '))) : success(ofRows);
}

/** Bytes of a database's header, and where its marks stand (SQLite, "Database File Format", section 1.3). */
const HEADER_BYTES = 100;
const FORMAT = 'SQLite format 3\0';
const VERSION_AT = 60;
const APPLICATION_AT = 68;

/**
 * Only the very first transaction of a database has a rollback journal, and a restored one's return to its log: at all
 * other times it keeps a log. A power cut then leaves one behind that a readonly connection may not play back; any
 * reading by a writing one does, and takes nothing away that was ever committed. Since that writes, both are looked at
 * first: the file as it is, and what the journal makes of a copy. A file that either shows to be newer or a stranger's is
 * refused with both files as they were. Throws what SQLite or the file system throws.
 */
export function playBackJournal(file: string): StorageProblem | null {
  if (sizeOf(`${file}-journal`) === 0) return null;
  const refusal = problemAsItIs(file) ?? problemPlayedBack(file);
  if (refusal === null) withDatabase(file, readIdentity);
  return refusal;
}

/** Of the bytes alone, for the pages behind them may not fit each other. A first transaction writes its marks last. */
function problemAsItIs(file: string): StorageProblem | null {
  const header = existsSync(file) ? readFileSync(file).subarray(0, HEADER_BYTES) : Buffer.alloc(0);
  if (header.length < HEADER_BYTES || header.toString('latin1', 0, FORMAT.length) !== FORMAT) return null;
  const [version, applicationId] = [header.readInt32BE(VERSION_AT), header.readInt32BE(APPLICATION_AT)];
  return identityProblem({ version, applicationId, isEmpty: true }, file);
}

function problemPlayedBack(file: string): StorageProblem | null {
  const copy = `${file}.looking`;
  freeDatabase(copy);
  try {
    for (const end of ['', '-journal']) if (existsSync(file + end)) copyFileSync(file + end, copy + end);
    return identityProblem(withDatabase(copy, readIdentity), file);
  } finally {
    freeDatabase(copy);
  }
}

function withDatabase<Value>(file: string, act: (db: Database.Database) => Value): Value {
  const db = new Database(file);
  try {
    return act(db);
  } finally {
    db.close();
  }
}

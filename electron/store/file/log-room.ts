/** Room for the write-ahead log, taken when the database is opened. */

import { statSync } from 'node:fs';
import type Database from 'better-sqlite3';
import { storageProblemOf } from './faults.ts';

/** After so many pages SQLite brings the log into the database and begins it anew, over the same bytes. */
const LOG_PAGES = 1000;
/** What the last commit before that may still append. */
const SPARE_PAGES = 24;
const PAGE_BYTES = 4096;
/** So few that pages of an open transaction spill into the log. */
const SMALL_CACHE_PAGES = 32;

/**
 * Lets the log grow at once to the size that it will have. A commit that makes the file longer has its new length to
 * bring to the disk as well, and takes twice as long as one that writes over what is there; without this, that would be
 * each of the first two hundred edits after every start. The pages come from a transaction that is rolled back, so they
 * are no part of any commit, and SQLite writes over them. A courtesy: a disk without the room goes without.
 */
export function takeRoomForLog(db: Database.Database): void {
  const log = `${db.name}-wal`;
  if ((statSync(log, { throwIfNoEntry: false })?.size ?? 0) >= LOG_PAGES * PAGE_BYTES) return;
  const cachePages: unknown = db.pragma('cache_size', { simple: true });
  db.pragma(`cache_size = ${SMALL_CACHE_PAGES}`);
  try {
    db.exec(`BEGIN IMMEDIATE; CREATE TABLE log_room (room BLOB);
      INSERT INTO log_room VALUES (zeroblob(${(LOG_PAGES + SPARE_PAGES) * PAGE_BYTES})); ROLLBACK`);
  } catch (cause) {
    if (storageProblemOf(cause, db.name) === null) throw cause;
  } finally {
    if (db.inTransaction) db.exec('ROLLBACK');
    db.pragma(`cache_size = ${cachePages}`);
  }
}

/** One transaction, ended by the result of what ran inside it. */

import type Database from 'better-sqlite3';
import type { Result } from '../../core/result.ts';

/**
 * Runs `act` under BEGIN IMMEDIATE, so that what it reads is still true when it writes. A success is committed, and is
 * returned only once the commit is on disk; a failure or an exception is rolled back. For what only reads several rows
 * that must fit each other, DEFERRED waits for no one.
 */
export function inTransaction<Value, Trouble>(
  db: Database.Database,
  act: () => Result<Value, Trouble>,
  kind: 'IMMEDIATE' | 'DEFERRED' = 'IMMEDIATE',
): Result<Value, Trouble> {
  db.exec(`BEGIN ${kind}`);
  try {
    const result = act();
    db.exec(result.ok ? 'COMMIT' : 'ROLLBACK');
    return result;
  } catch (cause) {
    // SQLite has already rolled back by itself after some errors.
    if (db.inTransaction) db.exec('ROLLBACK');
    throw cause;
  }
}

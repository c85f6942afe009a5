/** One transaction, ended by the result of what ran inside it. */

import type Database from 'better-sqlite3';
import type { Result } from '../../../core/index.ts';

/**
 * Runs `act` under BEGIN IMMEDIATE, so that what it reads is still true when it writes. A success is committed, and is
 * returned only once the commit is on disk; a failure or an exception is rolled back. For what only reads several rows
 * that must fit each other, DEFERRED waits for no one.
 */
export type InTransaction = <Value, Trouble>(
  act: () => Result<Value, Trouble>,
  kind?: 'IMMEDIATE' | 'DEFERRED',
) => Result<Value, Trouble>;

export function transactionsOn(db: Database.Database): InTransaction {
  const begin = { IMMEDIATE: db.prepare('BEGIN IMMEDIATE'), DEFERRED: db.prepare('BEGIN DEFERRED') };
  const commit = db.prepare('COMMIT');
  const rollback = db.prepare('ROLLBACK');
  return (act, kind = 'IMMEDIATE') => {
    begin[kind].run();
    try {
      const result = act();
      (result.ok ? commit : rollback).run();
      return result;
    } catch (cause) {
      // SQLite has already rolled back by itself after some errors.
      if (db.inTransaction) rollback.run();
      throw cause;
    }
  };
}

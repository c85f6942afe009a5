/** The migrations, oldest first, and nothing else: number n, counted from 1, leads from version n - 1 to n. */

import type Database from 'better-sqlite3';
import { SCHEMA_V1 } from './schema-v1.ts';

/**
 * Append, never change: files of every version are out there. One that changes what an edit means gives each header a
 * snapshot of the new `edit_meaning` at its last revision, made with the old meaning, which it carries along.
 */
export const MIGRATIONS: readonly ((db: Database.Database) => void)[] = [(db) => db.exec(SCHEMA_V1)];

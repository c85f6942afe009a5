/** Brings a database of any released version to the present schema. */

import Database from 'better-sqlite3';
import { MIGRATIONS } from './migration-list.ts';

/** Marks the file as this program's: the letters "Evrn" (SQLite file header, offset 68). */
export const APPLICATION_ID = 0x4576_726e;

/** The `user_version` that this program writes and the highest that it reads. */
export const SCHEMA_VERSION = MIGRATIONS.length;

/**
 * Runs every missing migration in one transaction, `user_version` included, so that a crash leaves old or new. Foreign
 * keys are off meanwhile, which SQLite allows only outside a transaction: a table that is rebuilt is gone for a moment.
 * Whoever migrates checks references afterwards, with all else.
 */
export function migrate(db: Database.Database): void {
  const enforced: unknown = db.pragma('foreign_keys', { simple: true });
  db.pragma('foreign_keys = OFF');
  try {
    db.transaction(() => {
      // Read again inside the transaction: another process may have migrated in the meantime.
      const found = db.pragma('user_version', { simple: true }) as number;
      for (const step of MIGRATIONS.slice(found)) step(db);
      db.pragma(`application_id = ${APPLICATION_ID}`);
      if (found < SCHEMA_VERSION) db.pragma(`user_version = ${SCHEMA_VERSION}`);
    }).immediate();
  } finally {
    db.pragma(`foreign_keys = ${enforced}`);
  }
}

/** The schema as SQLite holds it, one statement a paragraph, in the order of kind and name: what `schema.sql` commits. */
export function schemaText(db: Database.Database): string {
  const sql = "SELECT sql || ';' FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type = 'trigger', tbl_name, name";
  return `${db.prepare<[], string>(sql).pluck().all().join('\n\n')}\n`;
}

let expected: string | null = null;

/** What all migrations make of an empty database, to compare files with. Worked out once, in memory. */
export function expectedSchema(): string {
  if (expected === null) {
    const db = new Database(':memory:');
    migrate(db);
    expected = schemaText(db);
    db.close();
  }
  return expected;
}

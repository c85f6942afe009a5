/** Brings a database of any released version to the present schema. */

import type Database from 'better-sqlite3';
import { MIGRATIONS } from './migration-list.ts';

/** Marks the file as this program's: the letters "Evrn" (SQLite file header, offset 68). */
export const APPLICATION_ID = 0x4576_726e;

/** The `user_version` that this program writes and the highest that it reads. */
export const SCHEMA_VERSION = MIGRATIONS.length;

/**
 * Runs every missing migration in one transaction, `user_version` included, so that a crash leaves old or new. Foreign
 * keys are off meanwhile, which SQLite allows only outside a transaction: a table that is rebuilt is gone for a moment.
 * Whoever migrates checks references afterwards, with all else. Throws DamagedRow where a row is not as it was written.
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
  const rows = db
    .prepare<[], { sql: string }>(
      "SELECT sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY type = 'trigger', tbl_name, name",
    )
    .all();
  return `${rows.map((row) => `${row.sql};`).join('\n\n')}\n`;
}

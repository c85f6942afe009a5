/** A migration to a version that was never released, to prove on the present schema what the next one will rely on. */

import type Database from 'better-sqlite3';

/** Rebuilds a table that all others point at: the way in which migrations are known to lose rows. */
export function madeUpMigration(db: Database.Database): void {
  const triggers = db
    .prepare<[], string>("SELECT sql FROM sqlite_schema WHERE type = 'trigger' AND tbl_name = 'headers'")
    .pluck()
    .all();
  db.exec(`
    CREATE TABLE new_headers (
      id TEXT NOT NULL PRIMARY KEY CHECK (length(id) BETWEEN 1 AND 100),
      checksum INTEGER NOT NULL
    ) STRICT, WITHOUT ROWID;
    INSERT INTO new_headers SELECT id, checksum FROM headers;
    DROP TABLE headers`);
  db.pragma('legacy_alter_table = ON');
  db.exec('ALTER TABLE new_headers RENAME TO headers');
  db.pragma('legacy_alter_table = OFF');
  for (const trigger of triggers) db.exec(trigger);
}

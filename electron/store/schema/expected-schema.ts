/** The schema that this version of the program makes, to compare files with. */

import Database from 'better-sqlite3';
import { migrate, schemaText } from './migrations.ts';

let expected: string | null = null;

/** What all migrations make of an empty database. Worked out once, in memory. */
export function expectedSchema(): string {
  if (expected === null) {
    const db = new Database(':memory:');
    migrate(db);
    expected = schemaText(db);
    db.close();
  }
  return expected;
}

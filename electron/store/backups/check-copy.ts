/** Whether a copy of the database is whole: opened, checked, and in one file that needs no other. */

import Database from 'better-sqlite3';
import { DamagedRow } from '../file/faults.ts';
import { identityProblem, readIdentity } from '../file/identity.ts';
import { checkInSteps } from '../rows/check-database.ts';
import { SCHEMA_VERSION } from '../schema/migrations.ts';
import { atOnce, type Steps } from './steps.ts';

/** Takes in the log or the journal beside the copy, if there is one, and leaves a single file. */
export function makeSelfContained(file: string): void {
  const db = new Database(file);
  try {
    db.pragma('journal_mode = DELETE');
  } finally {
    db.close();
  }
}

/** Throws DamagedRow, or what SQLite throws, unless the file is a sound database of ours. Returns its fingerprint. */
export function checkCopy(file: string): string {
  return atOnce(copyChecks(file));
}

/** As checkCopy, in steps. */
export function* copyChecks(file: string): Steps<string> {
  const db = new Database(file, { readonly: true });
  try {
    const identity = readIdentity(db);
    const problem = identityProblem(identity, file);
    if (problem || identity.isEmpty) throw new DamagedRow('the copy is not a database of this program');
    // The rows of an older version have other columns; they are checked after the migration.
    if (identity.version < SCHEMA_VERSION) return checkPages(db);
    const soundness = yield* checkInSteps(db);
    if (soundness.findings.length > 0) throw new DamagedRow(soundness.findings.join('; '));
    return soundness.fingerprint;
  } finally {
    db.close();
  }
}

function checkPages(db: Database.Database): string {
  const answer: unknown = db.pragma('quick_check(1)', { simple: true });
  if (answer !== 'ok') throw new DamagedRow(String(answer));
  return '';
}

/** Whether a copy of the database is whole: opened, checked, and in one file that needs no other. */

import Database from 'better-sqlite3';
import { Damaged } from '../file/faults.ts';
import { identityProblem, readIdentity } from '../file/identity.ts';
import { checkInSteps, contentMark } from '../rows/check-database.ts';
import { SCHEMA_VERSION } from '../schema/migrations.ts';
import { atOnce, type Steps } from './steps.ts';

export interface CheckedCopy {
  /** Changes with what the user entered; empty for a copy of an older version. */
  readonly mark: string;
  /** Every row is as it was written, as far as rows can be checked before their migration. */
  readonly isWhole: boolean;
}

/** Takes in the log or the journal beside the copy, if there is one, and leaves a single file. */
export function makeSelfContained(file: string): void {
  const db = new Database(file, { timeout: 0 });
  try {
    db.pragma('journal_mode = DELETE');
  } finally {
    db.close();
  }
}

/** Throws Damaged, or what SQLite throws, unless the file is a database of ours that can be worked with. */
export function checkCopy(file: string): CheckedCopy {
  return atOnce(copyChecks(file));
}

/** As checkCopy, in steps. */
export function* copyChecks(file: string): Steps<CheckedCopy> {
  const db = new Database(file, { readonly: true });
  try {
    const identity = readIdentity(db);
    if (identityProblem(identity, file) || identity.isEmpty)
      throw new Damaged('the copy is not a database of this program');
    if (identity.version < SCHEMA_VERSION) return checkPages(db);
    const { ofFile, ofRows } = yield* checkInSteps(db, 'byTable');
    if (ofFile.length > 0) throw new Damaged(ofFile.join('; '));
    return { mark: contentMark(db), isWhole: ofRows.length === 0 };
  } finally {
    db.close();
  }
}

function checkPages(db: Database.Database): CheckedCopy {
  const answer: unknown = db.pragma('quick_check(1)', { simple: true });
  if (answer !== 'ok') throw new Damaged(String(answer));
  return { mark: '', isWhole: true };
}

/** Proves a copy of the database by reading all of it: every page, every row, every header, and every finished one against its checksum. */

import Database from 'better-sqlite3';
import type { Problem } from '../../../core/index.ts';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { identityProblem, readIdentity } from '../file/identity.ts';
import { sizeOf } from '../file/names-in-use.ts';
import { damageIn } from '../header/opened-header.ts';
import { migrate } from '../schema/migrations.ts';
import { openTables } from '../tables.ts';
import type { Going } from '../work/running-work.ts';
import { checkCopy, makeSelfContained } from './check-copy.ts';

type DoneWork = ReadOnly<Extract<ResponseOf<'continueWork'>, { state: 'done' }>['done']>;
export type Proven = Pick<
  Extract<DoneWork, { kind: 'proven' }>,
  'headers' | 'finished' | 'bytes' | 'damaged' | 'changedAt'
>;

/** Null: one of ours, of a version that can be read. Throws what SQLite throws on what is no database. */
export function strangerIn(file: string): Problem | null {
  const db = new Database(file, { readonly: true });
  try {
    return identityProblem(readIdentity(db), file);
  } finally {
    db.close();
  }
}

/** Between two of them the work can be stopped. */
const HEADERS_A_STEP = 20;

/**
 * Throws Damaged, or what SQLite throws, unless the file is a database of ours that can be worked with. Single headers
 * that are damaged or altered are named, for they may be all that is left of them. A copy of an older version is brought up to this one: `file` must
 * be a copy that is nobody else's.
 */
export async function* proveDatabase(file: string): AsyncGenerator<Going, Proven, Uint8Array | null> {
  makeSelfContained(file);
  checkCopy(file);
  const db = new Database(file);
  try {
    migrate(db);
    const tables = openTables(db);
    const headers = [...tables.headers.list('bench'), ...tables.headers.list('bin')];
    const damaged: { readonly name: string; readonly problem: Problem }[] = [];
    for (const [at, { headerId, name }] of headers.entries()) {
      if (at % HEADERS_A_STEP === 0) yield { stage: 'proving', done: at, of: headers.length, piece: null };
      const problem = damageIn(tables, headerId);
      if (problem) damaged.push({ name, problem });
    }
    const finished = headers.filter(({ state }) => state === 'finished').length;
    const changedAt =
      headers
        .map((header) => header.changedAt)
        .sort()
        .at(-1) ?? null;
    return { headers: headers.length, finished, bytes: sizeOf(file), damaged, changedAt };
  } finally {
    db.close();
  }
}

/** What a database file says it is: asked before anything is written to it. */

import type Database from 'better-sqlite3';
import type { StorageProblem } from '../../../core/index.ts';
import { APPLICATION_ID, SCHEMA_VERSION } from '../schema/migrations.ts';
import { storageProblem } from './faults.ts';

export interface Identity {
  readonly applicationId: number;
  readonly version: number;
  /** Nothing was ever made in it. */
  readonly isEmpty: boolean;
}

export function readIdentity(db: Database.Database): Identity {
  return {
    applicationId: db.pragma('application_id', { simple: true }) as number,
    version: db.pragma('user_version', { simple: true }) as number,
    isEmpty: db.prepare('SELECT 1 FROM sqlite_schema LIMIT 1').get() === undefined,
  };
}

/** Null: a file of ours that this version can read, or an empty one. */
export function identityProblem(identity: Identity, file: string): StorageProblem | null {
  if (identity.isEmpty && identity.applicationId === 0 && identity.version === 0) return null;
  if (identity.applicationId !== APPLICATION_ID)
    return storageProblem('notOurs', file, 'another program made this file');
  // The number comes to a file with its tables, and is at least 1 from then on.
  if (identity.version < 1) return storageProblem('corrupt', file, `its version number is ${identity.version}`);
  if (identity.version <= SCHEMA_VERSION) return null;
  const detail = `the file is of version ${identity.version}, this program reads up to ${SCHEMA_VERSION}`;
  return storageProblem('newerVersion', file, detail);
}

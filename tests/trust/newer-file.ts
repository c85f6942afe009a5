/** R15: a database of a newer version is refused before anything is written to it. */

import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { openBackend } from './backend-under-test.ts';
import { databaseFileIn } from './independent-reader.ts';
import { seededRandom } from './seeded-random.ts';

/** How the newer program left its file: in order, or as it lies after a crash or a power cut. */
type Shape = 'closed' | 'with a log beside it' | 'with a rollback journal beside it' | 'in its first transaction';

export interface NewerFileFinding {
  readonly shape: Shape;
  readonly refusedAs: string;
  readonly bytesUnchanged: boolean;
}

/** Of the database, its log and its journal. An empty log counts as none: reading a database makes one beside it. */
function fingerprint(file: string): string {
  const digests = [file, `${file}-wal`, `${file}-journal`].map((name) => {
    const bytes = existsSync(name) ? readFileSync(name) : Buffer.alloc(0);
    return createHash('sha256').update(bytes).digest('hex');
  });
  return digests.join(' ');
}

async function makeDatabase(folder: string): Promise<string> {
  const backend = openBackend(folder, seededRandom(15));
  await backend.must('createHeader', { name: 'From the future', from: 'demo' });
  await backend.close();
  const file = databaseFileIn(folder);
  if (file === null) throw new Error(`no database was made in ${folder}`);
  return file;
}

/** Raises the version; `live` leaves the change in the log, as a newer program that crashed would. */
function raiseVersion(file: string, target: string, live: boolean): void {
  const db = new Database(file);
  const version = db.pragma('user_version', { simple: true }) as number;
  db.pragma('journal_mode = WAL');
  db.pragma(`user_version = ${version + 1}`);
  if (!live) db.close();
  cpSync(file, target);
  if (!live) return;
  cpSync(`${file}-wal`, `${target}-wal`);
  db.close();
}

/** Copies the files in the middle of a transaction that has already written pages, as a power cut would leave them. */
function cutInTransaction(file: string, target: string): void {
  const db = new Database(file);
  const version = db.pragma('user_version', { simple: true }) as number;
  db.pragma('journal_mode = DELETE');
  db.pragma(`user_version = ${version + 1}`);
  db.pragma('cache_size = 1');
  db.exec(`BEGIN IMMEDIATE; CREATE TABLE filler (text); PRAGMA user_version = ${version + 2}`);
  fillPages(db);
  copyWithJournal(file, target);
  db.exec('ROLLBACK');
  db.close();
}

/** As the above, of a database that had never held anything, cut when all was written but the journal not yet taken away. */
function cutInFirstTransaction(file: string, target: string): void {
  const applicationId = withDatabase(file, (db) => db.pragma('application_id', { simple: true }) as number);
  const version = withDatabase(file, (db) => db.pragma('user_version', { simple: true }) as number);
  const fresh = `${file}.fresh`;
  const db = new Database(fresh);
  db.pragma('cache_size = 1');
  db.exec(`BEGIN IMMEDIATE; PRAGMA application_id = ${applicationId}; PRAGMA user_version = ${version + 1}`);
  db.exec('CREATE TABLE filler (text)');
  fillPages(db);
  copyWithJournal(fresh, target);
  db.exec('COMMIT');
  db.close();
  cpSync(fresh, target);
}

/** More than the pages that are kept in memory, so that the transaction writes to the file before it ends. */
function fillPages(db: Database.Database): void {
  const fill = db.prepare('INSERT INTO filler VALUES (?)');
  for (let row = 0; row < 400; row += 1) fill.run('x'.repeat(3000));
}

function withDatabase<Value>(file: string, look: (db: Database.Database) => Value): Value {
  const db = new Database(file, { readonly: true });
  try {
    return look(db);
  } finally {
    db.close();
  }
}

function copyWithJournal(file: string, target: string): void {
  cpSync(file, target);
  cpSync(`${file}-journal`, `${target}-journal`);
  if (statSync(target).size === 0 || statSync(`${target}-journal`).size === 0)
    throw new Error('the transaction was cut before it wrote anything');
}

const MAKERS: Readonly<Record<Shape, (file: string, target: string) => void>> = {
  closed: (file, target) => raiseVersion(file, target, false),
  'with a log beside it': (file, target) => raiseVersion(file, target, true),
  'with a rollback journal beside it': cutInTransaction,
  'in its first transaction': cutInFirstTransaction,
};

async function tryOne(root: string, shape: Shape): Promise<NewerFileFinding> {
  const made = join(root, `${shape} made`);
  const folder = join(root, shape);
  mkdirSync(made);
  mkdirSync(folder);
  const file = await makeDatabase(made);
  const target = join(folder, file.slice(made.length + 1));
  MAKERS[shape](file, target);
  const before = fingerprint(target);
  const backend = openBackend(folder, seededRandom(16));
  const start = await backend.must('start', {});
  const headers = await backend.call('listHeaders', { place: 'bench' });
  await backend.close();
  const problem = start.state === 'cannotOpen' ? start.problem : null;
  const refusedAs = problem?.kind === 'storage' && !headers.ok ? problem.fault : 'not refused';
  return { shape, refusedAs, bytesUnchanged: fingerprint(target) === before };
}

export async function tryNewerFiles(): Promise<readonly NewerFileFinding[]> {
  const root = mkdtempSync(join(tmpdir(), 'evenrun-newer-'));
  try {
    const findings: NewerFileFinding[] = [];
    for (const shape of Object.keys(MAKERS) as Shape[]) findings.push(await tryOne(root, shape));
    return findings;
  } finally {
    rmSync(root, { recursive: true });
  }
}

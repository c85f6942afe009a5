/** R15: a database of a newer version is refused before anything is written to it. */

import { createHash } from 'node:crypto';
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { openBackend } from './backend-under-test.ts';
import { databaseFileIn } from './independent-reader.ts';
import { seededRandom } from './seeded-random.ts';

export interface NewerFileFinding {
  /** Which of the two shapes of file was tried. */
  readonly shape: 'closed' | 'with a log beside it';
  readonly refusedAs: string;
  readonly bytesUnchanged: boolean;
}

/** Of the database and its log. An empty log counts as none: reading a database makes one beside it. */
function fingerprint(file: string): string {
  const digests = [file, `${file}-wal`].map((name) => {
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

async function tryOne(root: string, shape: NewerFileFinding['shape']): Promise<NewerFileFinding> {
  const made = join(root, `${shape} made`);
  const folder = join(root, shape);
  mkdirSync(made);
  mkdirSync(folder);
  const file = await makeDatabase(made);
  const target = join(folder, file.slice(made.length + 1));
  raiseVersion(file, target, shape !== 'closed');
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
    return [await tryOne(root, 'closed'), await tryOne(root, 'with a log beside it')];
  } finally {
    rmSync(root, { recursive: true });
  }
}

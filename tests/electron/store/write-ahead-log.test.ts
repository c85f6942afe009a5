/** A database and its log put together in memory are what SQLite itself reads from the two. */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { withLog } from '../../../electron/store/file/write-ahead-log.ts';
import { seededRandom } from '../../trust/seeded-random.ts';
import { temporaryFolder } from './shop.ts';

interface Pair {
  readonly pages: Buffer;
  readonly log: Buffer;
}

function bytesOf(file: string): Pair {
  return { pages: readFileSync(file), log: readFileSync(`${file}-wal`) };
}

/** Everything in it, row by row. */
function content(db: Database.Database): unknown {
  const tables = db.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name").pluck();
  return tables.all().map((table) => [table, db.prepare(`SELECT rowid, * FROM ${table} ORDER BY rowid`).raw().all()]);
}

function inMemory({ pages, log }: Pair): unknown {
  const whole = Buffer.from(withLog(pages, log));
  whole.fill(1, 18, 20);
  const db = new Database(whole, { readonly: true });
  try {
    return content(db);
  } finally {
    db.close();
  }
}

/** As SQLite reads copies of both files. */
function bySqlite({ pages, log }: Pair, folder: string, name: string): unknown {
  const file = join(folder, name);
  writeFileSync(file, pages);
  writeFileSync(`${file}-wal`, log);
  const db = new Database(file);
  try {
    return content(db);
  } finally {
    db.close();
  }
}

/** A database left open in the middle of its life, with random commits, roll-backs, checkpoints and a vacuum behind it. */
function live(folder: string, seed: number): { readonly db: Database.Database; readonly file: string } {
  const random = seededRandom(seed);
  const file = join(folder, `live-${seed}.sqlite`);
  const db = new Database(file);
  db.pragma(`page_size = ${[512, 1024, 4096][seed % 3]}`);
  db.pragma('journal_mode = WAL');
  db.pragma('wal_autocheckpoint = 0');
  db.pragma('cache_size = 4');
  db.exec('CREATE TABLE rows (text TEXT)');
  db.pragma('wal_checkpoint(TRUNCATE)');
  const insert = db.prepare('INSERT INTO rows VALUES (?)');
  for (let step = 0; step < 40; step += 1) {
    const chance = random();
    db.exec('BEGIN');
    for (let row = 0; row < 1 + random() * 12; row += 1) insert.run('x'.repeat(Math.floor(random() * 3000)));
    if (chance < 0.2) db.exec('DELETE FROM rows WHERE rowid % 3 = 0');
    db.exec(chance > 0.8 ? 'ROLLBACK' : 'COMMIT');
    if (chance > 0.4 && chance < 0.45) db.pragma('wal_checkpoint(RESTART)');
    if (chance > 0.5 && chance < 0.52) db.exec('DELETE FROM rows; VACUUM');
  }
  // The last commit is of the log, so that there always is one to be missed.
  insert.run('last');
  return { db, file };
}

describe.each([1, 2, 3, 4, 5, 6])('life %i', (seed) => {
  test('all that was committed is there, and nothing else', () => {
    const folder = temporaryFolder({ fast: true });
    const { db, file } = live(folder, seed);
    const wanted = content(db);
    const pair = bytesOf(file);
    db.close();
    expect(inMemory(pair)).toEqual(wanted);
    expect(inMemory({ ...pair, log: Buffer.alloc(0) })).not.toEqual(wanted);
  });

  test('a log that is cut off or damaged counts as far as SQLite lets it count', () => {
    const folder = temporaryFolder({ fast: true });
    const { db, file } = live(folder, seed);
    const { pages, log } = bytesOf(file);
    db.close();
    const random = seededRandom(seed + 100);
    const seen = new Set<string>();
    for (let round = 0; round < 25; round += 1) {
      const damaged = Buffer.from(log.subarray(0, round % 2 === 0 ? log.length : Math.floor(random() * log.length)));
      const at = round < 5 ? Math.floor(random() * 32) : Math.floor(random() * damaged.length);
      if (round % 2 === 0) damaged[at] = (damaged[at] ?? 0) ^ 0x10;
      const read = inMemory({ pages, log: damaged });
      expect(read, `round ${round}, byte ${at}`).toEqual(
        bySqlite({ pages, log: damaged }, folder, `cut-${round}.sqlite`),
      );
      seen.add(JSON.stringify(read));
    }
    expect(seen.size).toBeGreaterThan(3);
  });
});

test('a log of another database, of other pages, or none at all adds nothing', () => {
  const folder = temporaryFolder({ fast: true });
  mkdirSync(folder, { recursive: true });
  const [one, two] = [live(folder, 1), live(folder, 2)];
  const pages = readFileSync(one.file);
  for (const log of [Buffer.alloc(0), Buffer.alloc(31), Buffer.alloc(5000, 7), readFileSync(`${two.file}-wal`)])
    expect(withLog(pages, log)).toBe(pages);
  one.db.close();
  two.db.close();
});

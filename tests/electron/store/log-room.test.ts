/** Room for the log: taken once, no part of the database, and gone without where there is none. */

import { statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import { takeRoomForLog } from '../../../electron/store/file/log-room.ts';
import { setPragmas } from '../../../electron/store/file/pragmas.ts';
import { migrate } from '../../../electron/store/schema/migrations.ts';
import { addPrimary, doStep, headerWith, openShop, temporaryFolder, withDatabase } from './shop.ts';

/** SQLite brings the log into the database after 1000 pages (sqlite.org, PRAGMA wal_autocheckpoint), each with a frame header of 24 bytes. */
const FULL_LOG_BYTES = 1000 * (4096 + 24);

test('the log has its full size before the first edit, keeps it, and the database is no larger for it', async () => {
  const shop = openShop();
  await shop.must('start', {});
  const logBytes = () => statSync(`${shop.file}-wal`).size;
  const taken = logBytes();
  expect(taken).toBeGreaterThan(FULL_LOG_BYTES);
  const { header } = await headerWith(shop, []);
  for (let revision = 0; revision < 60; revision += 1) {
    const steps = [doStep(addPrimary(`p${revision}`)), doStep({ kind: 'removePrimary', primaryId: `p${revision}` })];
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 2 * revision, steps });
  }
  const second = openShop(shop.folder);
  await second.must('start', {});
  expect(logBytes()).toBe(taken);
  withDatabase(shop.file, (db) => {
    expect(db.pragma('page_count', { simple: true })).toBeLessThan(80);
    expect(db.prepare("SELECT count(*) FROM sqlite_schema WHERE name = 'log_room'").pluck().get()).toBe(0);
  });
});

test('a database that may not grow is opened all the same', () => {
  const db = new Database(join(temporaryFolder(), 'evenrun.sqlite'));
  setPragmas(db);
  migrate(db);
  db.pragma('max_page_count = 40');
  const cachePages = db.pragma('cache_size', { simple: true });
  takeRoomForLog(db);
  expect([db.inTransaction, db.pragma('cache_size', { simple: true })]).toEqual([false, cachePages]);
  expect(db.prepare('SELECT count(*) FROM headers').pluck().get()).toBe(0);
  db.close();
});

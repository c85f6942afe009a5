/** The schema as committed text, and databases of every released version. */

import { copyFileSync, existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { expect, test } from 'vitest';
import type { Header } from '../../../core/header/header.ts';
import {
  APPLICATION_ID,
  expectedSchema,
  migrate,
  SCHEMA_VERSION,
  schemaText,
} from '../../../electron/store/schema/migrations.ts';
import { EVERYTHING } from '../../archive-asked.ts';
import { openShop, storedText, temporaryFolder, withDatabase } from './shop.ts';

const FIXTURES = new URL('../../../fixtures/db/', import.meta.url).pathname;

test('the committed text is what the migrations make (run with -u after a new migration)', async () => {
  await expect(expectedSchema()).toMatchFileSnapshot('../../../electron/store/schema/schema.sql');
});

test('every table is STRICT', () => {
  const tables = expectedSchema().match(/CREATE TABLE[\s\S]*?;\n/g) ?? [];
  expect(tables.length).toBeGreaterThanOrEqual(9);
  for (const table of tables) expect(table).toMatch(/\) STRICT(, WITHOUT ROWID)?;\n$/);
});

test('numbers that are not finite or far out are refused by the tables themselves', () => {
  const db = new Database(':memory:');
  migrate(db);
  const put = db.prepare(
    "INSERT INTO archive VALUES (1, 'x', '', '', ?, 0, 0, 0, 0, 0, '{}', '[]', printf('%064d', 0), 0)",
  );
  db.pragma('foreign_keys = OFF');
  for (const wrong of [Number.NaN, Number.POSITIVE_INFINITY, -1, 1e10])
    expect(() => put.run(wrong)).toThrow(/constraint/i);
  expect(() => put.run(44.45)).not.toThrow();
});

test('migrating twice changes nothing, and leaves the version that the program says it has', () => {
  const db = new Database(':memory:');
  migrate(db);
  const once = schemaText(db);
  migrate(db);
  expect(schemaText(db)).toBe(once);
  expect(db.pragma('user_version', { simple: true })).toBe(SCHEMA_VERSION);
  expect(db.pragma('application_id', { simple: true })).toBe(APPLICATION_ID);
});

test('there is a database of every version ever released', () => {
  for (let version = 1; version <= SCHEMA_VERSION; version += 1) {
    expect(existsSync(join(FIXTURES, `v${version}.sqlite`)), `fixtures/db/v${version}.sqlite`).toBe(true);
  }
});

test.each(readdirSync(FIXTURES).filter((name) => name.endsWith('.sqlite')))(
  '%s opens with all that it held',
  async (name) => {
    const folder = temporaryFolder();
    const file = join(folder, 'evenrun.sqlite');
    copyFileSync(join(FIXTURES, name), file);
    const documents = withDatabase(file, (db) => {
      const ids = db.prepare<[], string>('SELECT id FROM headers').pluck().all();
      return ids.map((id) => JSON.parse(storedText(db, id)) as Header);
    });
    expect(documents).toHaveLength(3);
    const shop = openShop(folder);
    expect(await shop.must('start', {})).toMatchObject({ state: 'ready', preferences: { theme: 'dark' } });
    const drafts: unknown[] = [];
    for (const document of documents) {
      const opened = await shop.must('openHeader', { headerId: document.id });
      expect([opened.header, opened.damage]).toEqual([document, null]);
      if (opened.draft) drafts.push(opened.draft);
    }
    expect(drafts).toEqual([{ field: 'entry:extra', text: 'b90 1' }]);
    expect((await shop.must('searchArchive', EVERYTHING)).rows).toHaveLength(1);
    const { stock, history } = await shop.must('listStock', {});
    // A bend was cut and something kept of it; a count of 5 was taken back.
    expect(stock.map(({ item }) => [item.id, item.count])).toEqual([
      ['stock-straight', 2],
      ['stock-bend', 3],
      ['stock-remnant', 1],
    ]);
    expect([history.undo?.label, history.redo?.label.slice(0, 5)]).toEqual(['Cut plan', 'Count']);
    expect((await shop.must('listHeaders', { place: 'bin' })).headers).toHaveLength(1);
  },
);

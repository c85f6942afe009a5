/** The next version, made up: databases are brought up whole or not at all, with what they held kept beside them. */

import { spawn } from 'node:child_process';
import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { expect, test, vi } from 'vitest';
import type { Header } from '../../../core/header/header.ts';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { openDatabase } from '../../../electron/store/file/open-database.ts';
import { readHeader } from '../../../electron/store/header/read-header.ts';
import { SCHEMA_VERSION, schemaText } from '../../../electron/store/schema/migrations.ts';
import { childFile } from '../../trust/child-bundle.ts';
import { powerCutShim } from '../../trust/compile-shim.ts';
import { CUT_STATUS } from '../../trust/power-cuts.ts';
import { openShop, rebuiltText, stepId, storedText, temporaryFolder, withDatabase } from './shop.ts';

const broken = vi.hoisted(() => ({ is: false }));

vi.mock('../../../electron/store/schema/migration-list.ts', async (importReal) => {
  const { MIGRATIONS } = await importReal<typeof import('../../../electron/store/schema/migration-list.ts')>();
  const { madeUpMigration } = await import('./made-up-migration.ts');
  const migration = (db: Database.Database) => {
    madeUpMigration(db);
    if (broken.is) db.exec('INSERT INTO no_such_table VALUES (1)');
  };
  return { MIGRATIONS: [...MIGRATIONS, migration] };
});

function putEarlier(folder: string): string {
  const file = join(folder, 'evenrun.sqlite');
  copyFileSync(new URL('../../../fixtures/db/v1.sqlite', import.meta.url), file);
  return file;
}

const versionOf = (file: string): unknown => withDatabase(file, (db) => db.pragma('user_version', { simple: true }));

/** The documents that a database holds, by id: those of the newest snapshots, for it was closed in order. */
function documentsOf(file: string): ReadonlyMap<string, Header> {
  return withDatabase(file, (db) => {
    const ids = db.prepare<[], string>('SELECT id FROM headers').pluck().all();
    return new Map(ids.map((id) => [id, JSON.parse(storedText(db, id)) as Header]));
  });
}

/** Looks at the database in a copy of its folder, for a look folds the log in. */
function onCopy<Value>(folder: string, look: (file: string) => Value): Value {
  const copy = mkdtempSync(join(tmpdir(), 'evenrun-copy-'));
  try {
    cpSync(folder, copy, { recursive: true });
    return look(join(copy, 'evenrun.sqlite'));
  } finally {
    rmSync(copy, { recursive: true });
  }
}

function expectedOf(): ReadonlyMap<string, Header> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-earlier-'));
  try {
    return documentsOf(putEarlier(folder));
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Opens the data folder as the program does and holds every header against what the earlier version held. */
function expectAllThere(folder: string, expected: ReadonlyMap<string, Header>): void {
  const opened = openDatabase(dataFolder(folder), new Date('2026-03-02T08:00:00Z'));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const { tables } = opened.value;
  try {
    expect(tables.db.pragma('foreign_keys', { simple: true })).toBe(1);
    expect(tables.db.pragma('user_version', { simple: true })).toBe(SCHEMA_VERSION);
    for (const [id, document] of expected) {
      expect(JSON.parse(rebuiltText(tables.db, id))).toEqual(document);
      expect(readHeader(tables, id)).toMatchObject({ ok: true, value: { header: document, damage: null } });
    }
  } finally {
    tables.db.close();
  }
}

test('every header and step is there, and the file as it was is kept', () => {
  const folder = temporaryFolder();
  putEarlier(folder);
  const expected = expectedOf();
  expect([expected.size, SCHEMA_VERSION]).toEqual([3, 2]);
  expectAllThere(folder, expected);
  const kept = readdirSync(join(folder, 'backups')).filter((name) => name.endsWith('.sqlite'));
  expect(kept).toHaveLength(1);
  const backup = join(folder, 'backups', kept[0] ?? '');
  expect([versionOf(backup), documentsOf(backup)]).toEqual([1, expected]);
});

test('steps are taken back over the migration, and a finished header stays frozen', async () => {
  const shop = openShop(temporaryFolder());
  const file = putEarlier(shop.folder);
  const open = [...expectedOf().values()].find(({ name }) => name === 'Demo');
  const { revision, undo } = await shop.must('openHeader', { headerId: open?.id ?? '' });
  expect(undo.at(-1)?.label).toBe('add primary Extra');
  const steps = [{ action: 'undo' as const, stepId: stepId() }];
  await shop.must('commitSteps', { headerId: open?.id ?? '', baseRevision: revision, steps });
  const { header } = await shop.must('openHeader', { headerId: open?.id ?? '' });
  expect(header.primaries.map(({ id }) => id)).not.toContain('extra');
  withDatabase(file, (db) => expect(() => db.exec('DELETE FROM journal')).toThrow(/append-only/));
});

test('a migration that fails leaves the file at its version, with all that it held', async () => {
  broken.is = true;
  try {
    const shop = openShop(temporaryFolder());
    const file = putEarlier(shop.folder);
    const look = () => [versionOf(file), withDatabase(file, schemaText), documentsOf(file)];
    const before = look();
    for (let start = 0; start < 3; start += 1) {
      expect((await shop.must('start', {})).state).toBe('cannotOpen');
      expect(look()).toEqual(before);
    }
    // The file as it was is kept, and not once for every try.
    const { backups } = await shop.must('listBackups', {});
    expect(backups.map(({ kind }) => kind)).toEqual(['beforeMigration']);
    expect(documentsOf(join(shop.folder, 'backups', backups[0]?.name ?? ''))).toEqual(expectedOf());
  } finally {
    broken.is = false;
  }
});

test('rows that were damaged before are said, and what they held is not shown', async () => {
  const shop = openShop(temporaryFolder());
  const file = putEarlier(shop.folder);
  withDatabase(file, (db) => {
    db.pragma('foreign_keys = OFF');
    db.exec("INSERT INTO drafts VALUES ('nobody', 'f', 't', 0); INSERT INTO stock VALUES (4, 'x', 1, 1, 0, '{}', 0)");
  });
  const started = await shop.must('start', {});
  const notices = started.state === 'ready' ? started.notices.join() : '';
  for (const words of ['rows of drafts belong to no header', 'stock: 1 of 4 rows']) expect(notices).toContain(words);
  expect((await shop.must('listStock', {})).stock).toHaveLength(3);
});

const shim = powerCutShim();

/** Opens the folder in a process of its own, over the shim. */
async function openOver(env: Readonly<Record<string, string>>, folder: string): Promise<number | null> {
  const args = ['--no-warnings', childFile('open-made-up'), folder, 'start'];
  const child = spawn(process.execPath, args, { env: { ...process.env, ...env }, stdio: 'ignore' });
  return await new Promise((resolve) => child.once('close', resolve));
}

test.skipIf(!shim.ok)(
  'a power cut at any write leaves all of the old or all of the new',
  { timeout: 900_000 },
  async () => {
    if (!shim.ok) return;
    const expected = expectedOf();
    const root = realpathSync(mkdtempSync(join(tmpdir(), 'evenrun-cut-')));
    const fresh = (name: string) => {
      const folder = join(root, name);
      mkdirSync(folder);
      putEarlier(folder);
      return folder;
    };
    try {
      const counts = join(root, 'counts');
      const env = { LD_PRELOAD: shim.path, PCUT_FOLDER: fresh('whole'), PCUT_COUNTS: counts };
      expect(await openOver(env, join(root, 'whole'))).toBe(0);
      const operations = Number(readFileSync(counts, 'utf8').split(' ')[0]);
      const versions = new Set<unknown>();
      const stride = Math.max(1, Math.floor(operations / 24));
      for (let at = 1; at <= operations; at += stride) {
        const folder = fresh(`cut-${at}`);
        const cut = { LD_PRELOAD: shim.path, PCUT_FOLDER: folder, PCUT_AT: String(at), PCUT_SEED: String(at) };
        expect(await openOver(cut, folder)).toBe(CUT_STATUS);
        versions.add(onCopy(folder, versionOf));
        expectAllThere(folder, expected);
      }
      // Both ends were met, or the cuts do not straddle the migration.
      expect(versions).toEqual(new Set([1, 2]));
    } finally {
      rmSync(root, { recursive: true });
    }
  },
);

/** Databases of earlier versions: brought up whole or not at all, with what they held kept beside them. */

import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readdirSync, realpathSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import type { Header } from '../../../core/header/header.ts';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { openDatabase } from '../../../electron/store/file/open-database.ts';
import { SCHEMA_VERSION, schemaText } from '../../../electron/store/schema/migrations.ts';
import { startChild } from '../../trust/child-process.ts';
import { powerCutShim } from '../../trust/compile-shim.ts';
import { countOnDisk } from '../../trust/disk-counts.ts';
import { CUT_STATUS } from '../../trust/power-cuts.ts';
import { randomBelow, seededRandom } from '../../trust/seeded-random.ts';
import { faultOfStart, openShop, stepId, storedText, temporaryFolder, withDatabase } from './shop.ts';

type Earlier = 1 | 2 | 3 | 4;
const EARLIER: readonly Earlier[] = [1, 2, 3, 4];

function putVersion(version: Earlier, folder: string): string {
  const file = join(folder, 'evenrun.sqlite');
  copyFileSync(new URL(`../../../fixtures/db/v${version}.sqlite`, import.meta.url), file);
  return file;
}

/** SQL for whole documents, from the text of each without its primaries. */
const withPrimaries = (frame: string) => `SELECT id, json_set(${frame}, '$.primaries',
    json((SELECT json_group_array(json(own.document) ORDER BY listed.key)
      FROM json_each(headers.primaries) AS listed JOIN primaries AS own
      ON own.header_id = headers.id AND own.id = listed.value ->> 0))) FROM headers`;

/** The documents that a database of an earlier version holds, by id, put together in SQL as that version kept them. */
const DOCUMENTS: Readonly<Record<Earlier, string>> = {
  1: 'SELECT id, document FROM headers',
  2: withPrimaries('document'),
  3: withPrimaries('(SELECT document FROM frames WHERE header_id = headers.id)'),
  4: withPrimaries('(SELECT document FROM frames WHERE header_id = headers.id)'),
};

function documentsOf(file: string, version: Earlier): ReadonlyMap<string, Header> {
  const rows = withDatabase(file, (db) => db.prepare(DOCUMENTS[version]).raw().all());
  return new Map((rows as [string, string][]).map(([id, document]) => [id, JSON.parse(document) as Header]));
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

/** What the database of an earlier version holds, by id. */
function expectedOf(version: Earlier): ReadonlyMap<string, Header> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-earlier-'));
  try {
    return documentsOf(putVersion(version, folder), version);
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** Opens the data folder as the program does and holds every header against what the earlier version held. */
function expectAllThere(folder: string, expected: ReadonlyMap<string, Header>): void {
  const opened = openDatabase(dataFolder(folder), new Date('2026-03-02T08:00:00Z'));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const { db, headers, journal } = opened.value.tables;
  try {
    expect(db.pragma('foreign_keys', { simple: true })).toBe(1);
    for (const [id, document] of expected) {
      expect(headers.read(id)?.header).toEqual(document);
      expect(storedText(db, id)).toBe(JSON.stringify(document));
      expect(JSON.stringify(journal.rebuild(id))).toBe(JSON.stringify(document));
    }
  } finally {
    db.close();
  }
}

test.each(EARLIER)('version %i: every document is there byte for byte, and the file as it was is kept', (version) => {
  const folder = temporaryFolder();
  putVersion(version, folder);
  const expected = expectedOf(version);
  expect(expected.size).toBe(3);
  expectAllThere(folder, expected);
  const kept = readdirSync(join(folder, 'backups')).filter((name) => name.endsWith('.sqlite'));
  expect(kept).toHaveLength(1);
  expect(documentsOf(join(folder, 'backups', kept[0] ?? ''), version)).toEqual(expected);
});

test.each(EARLIER)(
  'version %i: steps are taken back over the migration, and a finished header stays frozen',
  async (version) => {
    const shop = openShop(temporaryFolder());
    const file = putVersion(version, shop.folder);
    const expected = expectedOf(version);
    const open = [...expected.values()].find(({ name }) => name === 'Demo');
    const finished = [...expected.values()].find(({ state }) => state === 'finished');
    if (!open || !finished) throw new Error('the fixture has changed');
    const { revision, undo } = await shop.must('openHeader', { headerId: open.id });
    expect(undo.map(({ label }) => label)).toEqual(['add primary Extra']);
    const steps = [{ action: 'undo' as const, stepId: stepId() }];
    await shop.must('commitSteps', { headerId: open.id, baseRevision: revision, steps });
    const { header } = await shop.must('openHeader', { headerId: open.id });
    expect(header.primaries.map(({ id }) => id)).not.toContain('extra');
    withDatabase(file, (db) => {
      for (const table of ['primaries', 'frames']) {
        const change = db.prepare(`UPDATE ${table} SET document = '{}' WHERE header_id = ?`);
        expect(() => change.run(finished.id)).toThrow(/finished/);
      }
    });
  },
);

test.each(EARLIER)('version %i: lists show what they showed', async (version) => {
  const shop = openShop(temporaryFolder());
  const file = putVersion(version, shop.folder);
  const shown = withDatabase(file, (db) =>
    db
      .prepare(
        `SELECT id AS headerId, name, state, revision, primary_count AS primaryCount, piece_count AS pieceCount,
           changed_at AS changedAt FROM headers ORDER BY touched DESC`,
      )
      .all(),
  );
  const lists = await Promise.all((['bench', 'bin'] as const).map((place) => shop.must('listHeaders', { place })));
  const found = lists.flatMap(({ headers }) => headers);
  expect(found).toHaveLength(3);
  expect(found).toEqual(shown);
});

/** What a bad disk may do, for which triggers must stand aside. */
const DAMAGE = {
  headers: "UPDATE headers SET name = 'x', revision = revision + 1 WHERE name = 'Demo'",
  edits: `DROP TRIGGER edits_no_update; UPDATE edits SET label = 'x' WHERE revision = 1;
    CREATE TRIGGER edits_no_update BEFORE UPDATE ON edits BEGIN SELECT RAISE(ABORT, 'the journal is append-only'); END`,
};

test.each(EARLIER.flatMap((version) => (['headers', 'edits'] as const).map((table) => ({ version, table }))))(
  'version $version: a row of $table that was changed on disk is said, not given a new checksum',
  async ({ version, table }) => {
    const shop = openShop(temporaryFolder());
    const file = putVersion(version, shop.folder);
    const look = () => withDatabase(file, (db) => [db.pragma('user_version', { simple: true }), schemaText(db)]);
    withDatabase(file, (db) => db.exec(DAMAGE[table]));
    const before = look();
    expect(await faultOfStart(shop)).toMatchObject({ fault: 'corrupt', detail: expect.stringMatching(/checksum/) });
    expect(look()).toEqual(before);
  },
);

const shim = powerCutShim();

const versionOf = (file: string): unknown => withDatabase(file, (db) => db.pragma('user_version', { simple: true }));

test.skipIf(!shim.ok).each(EARLIER)(
  'version %i: a power cut at any write leaves all of the old or all of the new',
  { timeout: 120_000 },
  async (version) => {
    if (!shim.ok) return;
    const prepare = (folder: string) => putVersion(version, folder);
    const expected = expectedOf(version);
    const { operations } = await countOnDisk({ shim: shim.path, commits: 0, prepare });
    const random = seededRandom(20_261_125 + version);
    // The migration is among the first writes; the room for the log takes most of the others.
    const cuts = [
      ...Array.from({ length: 40 }, (_, at) => 1 + 3 * at),
      ...Array.from({ length: 20 }, () => 1 + randomBelow(random, operations)),
    ];
    const versions = new Set<unknown>();
    for (const at of cuts) {
      const root = realpathSync(mkdtempSync(join(tmpdir(), 'evenrun-cut-')));
      try {
        const folder = join(root, 'data');
        mkdirSync(folder);
        prepare(folder);
        const env = { LD_PRELOAD: shim.path, PCUT_FOLDER: folder, PCUT_AT: String(at), PCUT_SEED: String(at) };
        expect((await startChild({ folder, seed: at, commits: 0, env }).ended).status).toBe(CUT_STATUS);
        versions.add(onCopy(folder, versionOf));
        expectAllThere(folder, expected);
      } finally {
        rmSync(root, { recursive: true });
      }
    }
    // Both ends were met, or the cuts do not straddle the migration.
    expect(versions).toEqual(new Set([version, SCHEMA_VERSION]));
  },
);

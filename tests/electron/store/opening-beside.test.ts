/** What stands in the place of the database's files, or in place of the folder: said, left as it is, and moved aside only to restore. */

import {
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  readlinkSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { listBackups } from '../../../electron/store/backups/backups.ts';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { addPrimary, faultOfStart, headerWith, openShop, problemOf, temporaryFolder, withDatabase } from './shop.ts';

/** A closed shop with one header, and a backup that holds it. */
async function shopWithBackup() {
  const shop = openShop();
  await headerWith(shop, [addPrimary('a')]);
  const backup = await shop.must('makeBackup', {});
  await shop.close();
  return { folder: shop.folder, file: shop.file, backup: backup.name };
}

/** The start refuses, and offers the backup; restoring it brings the header back. */
async function expectRestored({ folder, backup }: { folder: string; backup: string }, fault: unknown): Promise<void> {
  const shop = openShop(folder);
  const started = await shop.must('start', {});
  expect(started).toMatchObject({ state: 'cannotOpen', problem: { kind: 'storage', fault } });
  expect(started.state === 'cannotOpen' && started.backups.map(({ name }) => name)).toContain(backup);
  expect(await shop.must('restoreBackup', { name: backup })).toMatchObject({ state: 'ready', cannotWrite: null });
  expect((await shop.must('listHeaders', { place: 'bench' })).headers).toMatchObject([{ name: 'Bench four' }]);
  await shop.close();
}

const ENDS = ['', '-wal', '-shm', '-journal'];

describe.each(ENDS)('in the place of evenrun.sqlite%s', (end) => {
  test('a folder is said, and is aside with all that is in it once a backup is restored', async () => {
    const kept = await shopWithBackup();
    rmSync(kept.file + end, { force: true });
    mkdirSync(join(kept.file + end, 'deep'), { recursive: true });
    writeFileSync(join(kept.file + end, 'deep', 'mine.txt'), 'not of Evenrun');
    await expectRestored(kept, 'notOurs');
    expect(readFileSync(join(`${kept.file}${end}.aside-1`, 'deep', 'mine.txt'), 'utf8')).toBe('not of Evenrun');
  });

  test('a link is said, is not followed, and is aside once a backup is restored', async () => {
    const kept = await shopWithBackup();
    const target = join(temporaryFolder(), 'theirs');
    writeFileSync(target, 'not of Evenrun');
    rmSync(kept.file + end, { force: true });
    symlinkSync(target, kept.file + end);
    await expectRestored(kept, 'notOurs');
    expect(readFileSync(target, 'utf8')).toBe('not of Evenrun');
    expect(readlinkSync(`${kept.file}${end}.aside-1`)).toBe(target);
  });
});

describe('in the way of the copy that a restore begins with', () => {
  test.each(ENDS)('.restoring%s: folders and links are kept aside, what a crash left is cleared', async (end) => {
    const kept = await shopWithBackup();
    const target = join(temporaryFolder(), 'theirs');
    writeFileSync(target, 'not of Evenrun');
    writeFileSync(kept.file, 'no database'.repeat(99));
    const place = `${kept.file}.restoring${end}`;
    for (const inTheWay of [
      () => mkdirSync(join(place, 'deep'), { recursive: true }),
      () => symlinkSync(target, place),
      () => writeFileSync(place, 'half of a copy'),
    ]) {
      inTheWay();
      const shop = openShop(kept.folder);
      expect(await shop.must('restoreBackup', { name: kept.backup })).toMatchObject({ state: 'ready' });
      await shop.close();
    }
    expect(readFileSync(target, 'utf8')).toBe('not of Evenrun');
    expect(
      readdirSync(kept.folder)
        .filter((name) => name.includes('restoring'))
        .sort(),
    ).toEqual([`evenrun.sqlite.restoring${end}.aside-1`, `evenrun.sqlite.restoring${end}.aside-2`]);
  });
});

/** The journal of a transaction that was cut off, as SQLite itself leaves it: of a database with other content. */
function foreignJournal(): Buffer {
  const file = join(temporaryFolder(), 'other.sqlite');
  return withDatabase(file, (db) => {
    db.exec('CREATE TABLE t (a TEXT)');
    db.pragma('cache_size = 1');
    db.pragma('cache_spill = 1');
    for (let row = 0; row < 60; row += 1) db.prepare('INSERT INTO t VALUES (?)').run('y'.repeat(3000));
    db.exec('BEGIN');
    db.exec("UPDATE t SET a = replace(a, 'y', 'z')");
    return readFileSync(`${file}-journal`);
  });
}

test('a journal that is not of this database is not played into the restored one', async () => {
  const kept = await shopWithBackup();
  const journal = foreignJournal();
  expect(journal.length).toBeGreaterThan(1000);
  writeFileSync(kept.file, 'damaged'.repeat(2000));
  writeFileSync(`${kept.file}-journal`, journal);
  await expectRestored(kept, expect.stringMatching(/corrupt|notOurs/));
  // It belongs to what was live, so it lies with that.
  const [aside] = listBackups(dataFolder(kept.folder)).filter(({ kind }) => kind === 'setAside');
  expect(readFileSync(join(kept.folder, 'backups', `${aside?.name}-journal`))).toEqual(journal);
});

test('a crash between setting aside and putting in place gives the live file back what lay beside it', async () => {
  const kept = await shopWithBackup();
  const shop = openShop(kept.folder);
  const { header } = await headerWith(shop, [addPrimary('b')], 'In the log');
  const log = readFileSync(`${kept.file}-wal`);
  const pages = readFileSync(kept.file);
  await shop.close();
  rmSync(kept.file);
  writeFileSync(kept.file, pages);
  const aside = join(kept.folder, 'backups', 'evenrun-000009-setAside-2026-01-01T00-00-00Z.sqlite');
  linkSync(kept.file, aside);
  writeFileSync(`${aside}-wal`, log);
  const again = openShop(kept.folder);
  expect((await again.must('openHeader', { headerId: header.id })).header.name).toBe('In the log');
  expect(readdirSync(join(kept.folder, 'backups'))).toEqual([kept.backup]);
});

describe('a file with next to nothing in it', () => {
  test.each([0, 1, 2, 15, 16, 99, 100, 511, 600])(
    '%i bytes: not a new database while there are backups',
    async (size) => {
      const kept = await shopWithBackup();
      writeFileSync(kept.file, 'S'.repeat(size));
      await expectRestored(kept, size <= 1 ? 'missing' : 'corrupt');
    },
  );

  test('an empty database, as SQLite makes one, is not a new one either', async () => {
    const kept = await shopWithBackup();
    rmSync(kept.file);
    withDatabase(kept.file, (db) => db.exec('PRAGMA journal_mode = WAL; CREATE TABLE t (a); DROP TABLE t'));
    expect(readFileSync(kept.file).length).toBeGreaterThan(1000);
    await expectRestored(kept, 'missing');
  });

  test('without backups, 0 and 1 bytes are where a first start begins, and more is not touched', async () => {
    for (const size of [0, 1]) {
      const shop = openShop();
      writeFileSync(shop.file, 'S'.repeat(size));
      expect(await shop.must('start', {})).toMatchObject({ state: 'ready' });
    }
    const shop = openShop();
    writeFileSync(shop.file, 'tiny');
    expect(await faultOfStart(shop)).toMatchObject({ fault: 'corrupt' });
    expect(readFileSync(shop.file, 'utf8')).toBe('tiny');
  });
});

describe('in the place of the folder', () => {
  test('a file, a link, or a file above it', async () => {
    const parent = temporaryFolder();
    writeFileSync(join(parent, 'file'), '');
    expect(await faultOfStart(openShop(join(parent, 'file')))).toMatchObject({ fault: 'notOurs' });
    expect(await faultOfStart(openShop(join(parent, 'file', 'deeper')))).toMatchObject({ fault: 'missing' });
    mkdirSync(join(parent, 'real'));
    symlinkSync(join(parent, 'real'), join(parent, 'link'));
    const linked = openShop(join(parent, 'link'));
    expect(await faultOfStart(linked)).toMatchObject({ fault: 'notOurs' });
    expect(problemOf(await linked.call('restoreBackup', { name: 'any' }))).toMatchObject({ fault: 'notOurs' });
  });

  test('a file where the backups should be: the headers open, and a backup says what is in its way', async () => {
    const { folder } = await shopWithBackup();
    rmSync(join(folder, 'backups'), { recursive: true });
    writeFileSync(join(folder, 'backups'), 'mine');
    const shop = openShop(folder);
    expect(await shop.must('start', {})).toMatchObject({ state: 'ready' });
    for (const reply of [await shop.call('makeBackup', {}), await shop.call('listBackups', {})])
      expect(problemOf(reply)).toMatchObject({ kind: 'storage', file: join(folder, 'backups') });
    expect(readFileSync(join(folder, 'backups'), 'utf8')).toBe('mine');
  });
});

test.each([
  ['a name of 300 letters', (parent: string) => join(parent, 'x'.repeat(300))],
  ['a path of 600 letters', (parent: string) => join(parent, ...Array<string>(6).fill('x'.repeat(100)))],
  ['a path of 5000 letters', (parent: string) => join(parent, ...Array<string>(50).fill('x'.repeat(100)))],
  ['a path in which a database would fit, and its backups would not', (parent: string) => longFolder(parent, 421)],
])('%s is too long, and that is said', async (_what, folder) => {
  const shop = openShop(folder(temporaryFolder()));
  expect(await faultOfStart(shop)).toMatchObject({ fault: 'pathTooLong' });
  expect(problemOf(await shop.call('listHeaders', { place: 'bench' }))).toMatchObject({ fault: 'pathTooLong' });
});

test('in the longest path that is taken, backups are made and restored', async () => {
  const shop = openShop(longFolder(temporaryFolder(), 420));
  await headerWith(shop, [addPrimary('a')]);
  const { name } = await shop.must('makeBackup', {});
  expect(await shop.must('restoreBackup', { name })).toMatchObject({ state: 'ready' });
});

/** A folder whose path has so many bytes. */
function longFolder(parent: string, bytes: number): string {
  let path = parent;
  while (bytes - path.length > 202) path = join(path, 'x'.repeat(200));
  return join(path, 'x'.repeat(bytes - path.length - 1));
}

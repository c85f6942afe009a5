/** Opening: what is not ours, newer, damaged, gone or not to be written is said, and left as it is. */

import { execFile, execFileSync, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { promisify } from 'node:util';
import Database from 'better-sqlite3';
import { describe, expect, test, vi } from 'vitest';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { identityProblem, readIdentity } from '../../../electron/store/file/identity.ts';
import { openDatabase } from '../../../electron/store/file/open-database.ts';
import { pragmaMismatches } from '../../../electron/store/file/pragmas.ts';
import { migrate, SCHEMA_VERSION } from '../../../electron/store/schema/migrations.ts';
import { childFile } from '../../trust/child-bundle.ts';
import {
  addPrimary,
  faultOfStart,
  hashOf,
  headerWith,
  openShop,
  problemOf,
  temporaryFolder,
  withDatabase,
} from './shop.ts';

const CHILD = childFile('open-and-report');

/** A folder with a sound database of one header in it, closed. */
async function usedFolder(): Promise<string> {
  const shop = openShop();
  await headerWith(shop, [addPrimary('a'), addPrimary('b')]);
  await shop.close();
  return shop.folder;
}

describe('opened ahead of the first call', () => {
  test('the start finds it open, with all that is kept', async () => {
    const folder = await usedFolder();
    const shop = openShop(folder);
    shop.openAhead();
    // Only an open database has a log beside it.
    expect(existsSync(`${shop.file}-wal`)).toBe(true);
    expect(await shop.must('start', {})).toMatchObject({ state: 'ready', cannotWrite: null });
    expect((await shop.must('listHeaders', { place: 'bench' })).headers).toHaveLength(1);
  });

  test('what stands in the way is told by the start, and by no other means', async () => {
    const shop = openShop();
    withDatabase(shop.file, (db) => db.exec('CREATE TABLE recipes (name TEXT); PRAGMA user_version = 1'));
    shop.openAhead();
    expect(await faultOfStart(shop)).toMatchObject({ fault: 'notOurs', file: shop.file });
  });
});

describe('what another version or program made', () => {
  test('R15: a newer file is refused before any write, its log included', async () => {
    const folder = await usedFolder();
    const file = join(folder, 'evenrun.sqlite');
    // Left as a crash leaves it: the newer version number only in the write-ahead log.
    const live = new Database(file);
    live.pragma('journal_mode = WAL');
    live.pragma('user_version = 99');
    const bytes = [readFileSync(file), readFileSync(`${file}-wal`)] as const;
    live.close();
    writeFileSync(file, bytes[0]);
    writeFileSync(`${file}-wal`, bytes[1]);
    const before = [hashOf(file), hashOf(`${file}-wal`)];
    const shop = openShop(folder);
    expect(await faultOfStart(shop)).toMatchObject({ fault: 'newerVersion', detail: expect.stringContaining('99') });
    expect(problemOf(await shop.call('listHeaders', { place: 'bench' }))).toMatchObject({ fault: 'newerVersion' });
    await shop.close();
    expect([hashOf(file), hashOf(`${file}-wal`)]).toEqual(before);
  });

  test('a database of another program is left alone', async () => {
    const shop = openShop();
    withDatabase(shop.file, (db) => db.exec('CREATE TABLE recipes (name TEXT); PRAGMA user_version = 1'));
    const before = hashOf(shop.file);
    expect(await faultOfStart(shop)).toMatchObject({ fault: 'notOurs', file: shop.file });
    expect(hashOf(shop.file)).toBe(before);
  });

  test('tables, triggers or indexes that are not ours are noticed', async () => {
    for (const sql of [
      'DROP TRIGGER journal_no_update',
      'CREATE TABLE more (a TEXT)',
      'CREATE INDEX more ON journal (step_id)',
    ]) {
      const folder = await usedFolder();
      withDatabase(join(folder, 'evenrun.sqlite'), (db) => db.exec(sql));
      expect(await faultOfStart(openShop(folder)), sql).toMatchObject({ fault: 'corrupt' });
    }
  });

  test('links and folders in the place of the file are refused', async () => {
    const target = join(await usedFolder(), 'evenrun.sqlite');
    const linked = openShop();
    symlinkSync(target, linked.file);
    expect(await faultOfStart(linked)).toMatchObject({ fault: 'notOurs', detail: expect.stringContaining('link') });
    const blocked = openShop();
    mkdirSync(blocked.file);
    expect(await faultOfStart(blocked)).toMatchObject({ fault: 'notOurs' });
  });
});

describe('what is gone', () => {
  test('a database that was lost is not begun anew while backups of it exist', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    const backup = await shop.must('makeBackup', {});
    await shop.close();
    rmSync(shop.file);
    const again = openShop(shop.folder);
    expect(await faultOfStart(again)).toMatchObject({ fault: 'missing' });
    await again.must('restoreBackup', { name: backup.name });
    expect((await again.must('listHeaders', { place: 'bench' })).headers).toHaveLength(1);
  });

  test('a folder in the way of the data folder is said', async () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'file'), '');
    expect(['missing', 'ioError']).toContain((await faultOfStart(openShop(join(folder, 'file', 'deeper')))).fault);
  });

  test('a path with spaces, letters of other scripts and 200 bytes is a path like any other', async () => {
    const shop = openShop(join(temporaryFolder(), `Ünï çødé – 管 ${'x'.repeat(180)}`));
    expect((await shop.must('start', {})).state).toBe('ready');
    await headerWith(shop, [addPrimary('a')]);
  });
});

describe('a disk that fills while steps are committed', () => {
  const canMount = process.getuid?.() === 0 && spawnSync('unshare', ['-m', 'true']).status === 0;
  test.runIf(canMount)('R6: a full disk is said, loses nothing, and passes', () => {
    const folder = temporaryFolder();
    const script = `mount -t tmpfs -o size=512k none "${folder}" && "${process.execPath}" "${CHILD}" "${folder}" fillDisk`;
    const report = JSON.parse(execFileSync('unshare', ['-m', 'sh', '-c', script], { encoding: 'utf8' }));
    expect(report.firstProblem).toMatchObject({ kind: 'storage', fault: 'diskFull' });
    expect(report.acknowledged).toBeGreaterThan(5);
    expect(report.found).toBe(report.acknowledged);
    expect(report.backup).toMatchObject({ kind: 'storage', fault: 'diskFull' });
    expect(report.partials).toEqual([]);
    expect(report.afterGrowing).toBe(true);
  });
});

test('what a file is, is read as of one moment, though another process is just making it ours', () => {
  const file = join(temporaryFolder(), 'new.sqlite');
  const maker = new Database(file);
  maker.pragma('journal_mode = WAL');
  const reader = new Database(file, { readonly: true });
  const read = reader.pragma.bind(reader);
  vi.spyOn(reader, 'pragma').mockImplementation((source, options) => {
    if (source === 'user_version') migrate(maker);
    return read(source, options);
  });
  expect(identityProblem(readIdentity(reader), file)).toBeNull();
  expect(readIdentity(maker)).toMatchObject({ isEmpty: false, version: SCHEMA_VERSION });
  reader.close();
  maker.close();
});

test('four processes that begin on an empty folder at once all get their steps in', async () => {
  const folder = join(temporaryFolder(), 'new');
  const run = promisify(execFile);
  const reports = await Promise.all(
    [1, 2, 3, 4].map(() => run(process.execPath, [CHILD, folder, 'commits', '10'], { encoding: 'utf8' })),
  );
  expect(reports.map(({ stdout }) => JSON.parse(stdout))).toEqual(Array(4).fill({ acknowledged: 10 }));
  const { headers } = await openShop(folder).must('listHeaders', { place: 'bench' });
  expect(headers.map(({ revision }) => revision)).toEqual([10, 10, 10, 10]);
});

describe('a failing disk while steps are committed', () => {
  const canLimit = spawnSync('prlimit', ['--version']).status === 0;
  test.runIf(canLimit)(
    'R7: writes that fail are said, lose nothing, and the program goes on when they succeed again',
    () => {
      const folder = temporaryFolder();
      const args = ['--fsize=200000:unlimited', process.execPath, CHILD, folder, 'reachLimit'];
      const report = JSON.parse(execFileSync('prlimit', args, { encoding: 'utf8' }));
      expect(report.firstProblem.kind).toBe('storage');
      expect(['ioError', 'diskFull']).toContain(report.firstProblem.fault);
      expect(report.acknowledged).toBeGreaterThan(5);
      expect(report.afterGrowing).toBe(true);
      expect(report.partials).toEqual([]);
    },
  );
});

describe('R26: how the database is run', () => {
  test('every setting stands after the first commit, and after others', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    await shop.close();
    const opened = openDatabase(dataFolder(shop.folder), new Date());
    if (!opened.ok) throw new Error('not opened');
    const { db } = opened.value.tables;
    expect(pragmaMismatches(db)).toEqual([]);
    opened.value.tables.settings.savePreferences({ theme: 'dark', density: 'desk' });
    expect(pragmaMismatches(db)).toEqual([]);
    expect(db.pragma('synchronous', { simple: true })).toBe(2);
    // This must be able to fail: the library's own choice shows up as a mismatch.
    db.pragma('synchronous = NORMAL');
    expect(pragmaMismatches(db)).toEqual(['synchronous is 1, wanted 2']);
    db.close();
  });

  test('the engine has no known way to lose a commit (3.51.3 and later)', () => {
    const db = new Database(':memory:');
    const [major = 0, minor = 0, patch = 0] = String(db.prepare('SELECT sqlite_version()').pluck().get())
      .split('.')
      .map(Number);
    expect(major * 1e6 + minor * 1e3 + patch).toBeGreaterThanOrEqual(3_051_003);
    db.close();
  });

  const hasStrace = spawnSync('strace', ['-V']).status === 0;
  test.runIf(hasStrace)('the disk is told to keep every commit', () => {
    const folder = temporaryFolder();
    const trace = join(folder, 'trace.txt');
    const args = [
      '-f',
      '-e',
      'trace=fsync,fdatasync',
      '-o',
      trace,
      process.execPath,
      CHILD,
      join(folder, 'shop'),
      'commits',
      '100',
    ];
    const out = execFileSync('strace', args, { encoding: 'utf8' });
    expect(JSON.parse(out)).toEqual({ acknowledged: 100 });
    const syncs = readFileSync(trace, 'utf8').match(/(?:fsync|fdatasync)\(/g)?.length ?? 0;
    expect(syncs).toBeGreaterThanOrEqual(100);
  });
});

test('a live file with a second name in the backups folder, as a crash can leave it, loses that name', async () => {
  const shop = openShop();
  await headerWith(shop, [addPrimary('a')]);
  const backup = await shop.must('makeBackup', {});
  await shop.close();
  const aside = join(shop.folder, 'backups', 'evenrun-000009-setAside-2026-01-01T00-00-00Z.sqlite');
  execFileSync('ln', [shop.file, aside]);
  const again = openShop(shop.folder);
  expect((await again.must('start', {})).state).toBe('ready');
  expect((await again.must('listBackups', {})).backups.map((b) => b.name)).toEqual([backup.name]);
});

/** Backups are whole, checked, restored and compared; what is live is never lost by restoring one. */

import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, readFileSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { describe, expect, test } from 'vitest';
import { listBackups, parseBackupName, rotate } from '../../../electron/store/backups/backups.ts';
import { checkCopy } from '../../../electron/store/backups/check-copy.ts';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { childFile } from '../../trust/child-bundle.ts';
import { until } from '../../until.ts';
import {
  addPrimary,
  doStep,
  faultOfStart,
  hashOf,
  headerWith,
  openShop,
  problemOf,
  type Shop,
  temporaryFolder,
  withoutTrigger,
} from './shop.ts';

const CHILD = childFile('open-and-report');
const { EVENRUN_LONG } = process.env;
const KILLS = EVENRUN_LONG === '1' ? 200 : 8;

async function content(shop: Shop) {
  const { headers } = await shop.must('listHeaders', { place: 'bench' });
  return Promise.all(headers.map(({ headerId }) => shop.must('openHeader', { headerId })));
}

describe('making', () => {
  test('a backup holds all that the database held, and needs no other file', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    const before = await content(shop);
    const backup = await shop.must('makeBackup', {});
    expect(backup).toMatchObject({ kind: 'daily', takenAt: '2026-03-01T08:00:00Z' });
    expect(readdirSync(join(shop.folder, 'backups'))).toEqual([backup.name]);
    const alone = openShop();
    mkdirSync(alone.folder, { recursive: true });
    writeFileSync(alone.file, readFileSync(join(shop.folder, 'backups', backup.name)));
    expect(await content(alone)).toEqual(before);
  });

  test('is made while steps go on, and is whole', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, []);
    const backup = shop.must('makeBackup', {});
    for (let revision = 0; revision < 20; revision += 1) {
      const steps = [doStep(addPrimary(`p${revision}`))];
      await shop.must('commitSteps', { headerId: header.id, baseRevision: revision, steps });
    }
    checkCopy(join(shop.folder, 'backups', (await backup).name));
  });

  test('some time after a start, and only when something was entered since the last', async () => {
    const due: (() => void)[] = [];
    const timers = { set: (act: () => void) => due.push(act), clear: () => undefined };
    const start = async (one: Shop) => {
      await one.must('start', {});
      for (const act of due.splice(0)) act();
      // The next hour is set when this one is through.
      await until('the hour is through', () => due.length > 0);
      await one.close();
      return listBackups(dataFolder(one.folder)).map(({ kind }) => kind);
    };
    const shop = openShop(undefined, { timers, backupAfterMs: 0 });
    await headerWith(shop, [addPrimary('a')]);
    expect(await start(shop)).toEqual(['daily']);
    expect(await start(openShop(shop.folder, { timers, backupAfterMs: 0 }))).toEqual(['daily']);
    const third = openShop(shop.folder, { timers, backupAfterMs: 0 });
    await headerWith(third, []);
    expect(await start(third)).toEqual(['recent', 'daily']);
  });

  test('what a crash left halfway is cleared away, and never listed', async () => {
    const shop = openShop();
    await headerWith(shop, []);
    mkdirSync(join(shop.folder, 'backups'));
    writeFileSync(join(shop.folder, 'backups', 'evenrun-000001-daily-2026-01-01T00-00-00Z.sqlite.partial'), 'half');
    expect((await shop.must('listBackups', {})).backups).toEqual([]);
    const { name } = await shop.must('makeBackup', {});
    expect(readdirSync(join(shop.folder, 'backups'))).toEqual([name]);
  });
});

test('R16: a process killed while it makes backups leaves no unsound file under a final name', {
  timeout: 120_000,
}, async () => {
  const shop = openShop();
  await headerWith(shop, [addPrimary('a')]);
  await shop.close();
  const place = dataFolder(shop.folder);
  for (let round = 0; round < KILLS; round += 1) {
    const child = spawn(process.execPath, [CHILD, shop.folder, 'backups'], { stdio: 'ignore' });
    const ended = new Promise((resolve) => child.once('exit', (_code, signal) => resolve(signal)));
    const before = listBackups(place)[0]?.name;
    // Killed at some moment after its first backup, so that it is surely at work.
    while (listBackups(place)[0]?.name === before && child.exitCode === null) await pause(2);
    await pause((round * 7) % 40);
    child.kill('SIGKILL');
    expect(await ended).toBe('SIGKILL');
    for (const { name } of listBackups(place))
      expect(checkCopy(join(place.backupsFolder, name))).toMatchObject({
        mark: expect.stringMatching(/\d/),
        isWhole: true,
      });
  }
});

describe('rotation', () => {
  test('keeps the newest of each kind by number, whatever the clock said', () => {
    const place = dataFolder(temporaryFolder());
    mkdirSync(place.backupsFolder);
    const limits = { recent: 10, daily: 8, beforeMigration: 5, setAside: 5, damaged: 5 };
    let number = 0;
    for (let round = 0; round < 15; round += 1) {
      for (const kind of Object.keys(limits)) {
        number += 1;
        // Later ones carry earlier times.
        const name = `evenrun-${String(number).padStart(6, '0')}-${kind}-${2040 - round}-01-01T00-00-00Z.sqlite`;
        writeFileSync(join(place.backupsFolder, name), '');
      }
    }
    writeFileSync(join(place.backupsFolder, 'mine.sqlite'), 'a file of the user');
    rotate(place);
    const left = listBackups(place);
    for (const [kind, limit] of Object.entries(limits)) {
      const ofKind = left.filter((backup) => backup.kind === kind);
      expect([kind, ofKind.length, ofKind[0]?.takenAt.slice(0, 4)]).toEqual([kind, limit, '2026']);
    }
    expect(existsSync(join(place.backupsFolder, 'mine.sqlite'))).toBe(true);
  });

  test('a backup that is gone by the time it is looked at is not listed', () => {
    const place = dataFolder(temporaryFolder());
    mkdirSync(place.backupsFolder);
    // A link to nothing is named by the folder and then not found, as a file is that another process has rotated away.
    symlinkSync('nowhere', join(place.backupsFolder, 'evenrun-000001-recent-2026-01-01T00-00-00Z.sqlite'));
    expect(listBackups(place)).toEqual([]);
  });

  test('a link or a folder with the name of a backup is none, and its number is not given again', async () => {
    const shop = openShop();
    await headerWith(shop, []);
    const { name } = await shop.must('makeBackup', {});
    const folder = join(shop.folder, 'backups');
    symlinkSync(join(folder, name), join(folder, 'evenrun-000007-daily-2026-01-01T00-00-00Z.sqlite'));
    mkdirSync(join(folder, 'evenrun-000009-daily-2026-01-01T00-00-00Z.sqlite'));
    expect((await shop.must('listBackups', {})).backups.map((backup) => backup.name)).toEqual([name]);
    expect((await shop.must('makeBackup', {})).name).toMatch(/^evenrun-000010-/);
  });

  test('fourteen backups on one day leave one daily and ten recent', async () => {
    const shop = openShop();
    await headerWith(shop, []);
    for (let made = 0; made < 14; made += 1) await shop.must('makeBackup', {});
    const kinds = (await shop.must('listBackups', {})).backups.map(({ kind }) => kind);
    expect(kinds).toEqual([...Array(10).fill('recent'), 'daily']);
    shop.setClock('2026-03-02T08:00:00Z');
    expect((await shop.must('makeBackup', {})).kind).toBe('daily');
  });
});

test('copies of a database with damage are kept apart, and take the place of none that is whole', async () => {
  const shop = openShop();
  const { header } = await headerWith(shop, [addPrimary('a'), addPrimary('b')]);
  const sound = await shop.must('makeBackup', {});
  withoutTrigger(shop.file, 'journal_no_update', (db) => db.exec("UPDATE journal SET label = 'x' WHERE revision = 2"));
  for (let made = 0; made < 12; made += 1) await shop.must('makeBackup', {});
  const { backups } = await shop.must('listBackups', {});
  expect(backups.map(({ kind }) => kind)).toEqual([...Array(5).fill('damaged'), 'daily']);
  // The damaged ones can be restored all the same, and the sound one brings the header back whole.
  await shop.must('restoreBackup', { name: backups[0]?.name ?? '' });
  expect((await shop.must('openHeader', { headerId: header.id })).damage).not.toBeNull();
  await shop.must('restoreBackup', { name: sound.name });
  expect(await shop.must('openHeader', { headerId: header.id })).toMatchObject({ revision: 2, damage: null });
});

describe('restoring', () => {
  test('brings back what was, and keeps what was live aside, to be restored in turn', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a')]);
    const old = await content(shop);
    const backup = await shop.must('makeBackup', {});
    await shop.must('commitSteps', { headerId: header.id, baseRevision: 1, steps: [doStep(addPrimary('b'))] });
    const newer = await content(shop);
    expect(await shop.must('restoreBackup', { name: backup.name })).toMatchObject({ state: 'ready' });
    expect(await content(shop)).toEqual(old);
    const aside = (await shop.must('listBackups', {})).backups.find(({ kind }) => kind === 'setAside');
    await shop.must('restoreBackup', { name: aside?.name ?? '' });
    expect(await content(shop)).toEqual(newer);
  });

  test('works when the live file cannot be opened, and leaves that file whole aside', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    const before = await content(shop);
    const backup = await shop.must('makeBackup', {});
    await shop.close();
    writeFileSync(shop.file, 'damaged beyond telling'.repeat(300));
    const damaged = hashOf(shop.file);
    const again = openShop(shop.folder);
    expect(await faultOfStart(again)).toMatchObject({ fault: 'corrupt' });
    const started = await again.must('start', {});
    expect(started.state === 'cannotOpen' && started.backups).toEqual([backup]);
    expect(problemOf(await again.call('makeBackup', {}))).toMatchObject({ kind: 'storage', fault: 'corrupt' });
    expect(await again.must('restoreBackup', { name: backup.name })).toMatchObject({ state: 'ready' });
    expect(await content(again)).toEqual(before);
    const aside = listBackups(dataFolder(shop.folder)).find(({ kind }) => kind === 'setAside');
    expect(hashOf(join(shop.folder, 'backups', aside?.name ?? ''))).toBe(damaged);
  });

  test('a log beside the damaged file goes aside with it, not into the restored one', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    const before = await content(shop);
    const backup = await shop.must('makeBackup', {});
    await shop.close();
    writeFileSync(shop.file, 'x'.repeat(5000));
    writeFileSync(`${shop.file}-wal`, 'y'.repeat(5000));
    const again = openShop(shop.folder);
    await faultOfStart(again);
    await again.must('restoreBackup', { name: backup.name });
    expect(await content(again)).toEqual(before);
    const names = readdirSync(join(shop.folder, 'backups'));
    expect(names.filter((name) => name.includes('setAside')).map((name) => name.replace(/^.*Z/, ''))).toEqual([
      '.sqlite',
      '.sqlite-wal',
    ]);
  });

  test('a backup that is not sound, or not there, changes nothing', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    const before = await content(shop);
    const backup = await shop.must('makeBackup', {});
    writeFileSync(join(shop.folder, 'backups', backup.name), 'no longer a database'.repeat(99));
    expect(problemOf(await shop.call('restoreBackup', { name: backup.name }))).toMatchObject({
      kind: 'storage',
      fault: 'corrupt',
    });
    for (const name of ['', '../evenrun.sqlite', 'evenrun-000099-daily-2026-01-01T00-00-00Z.sqlite']) {
      expect(problemOf(await shop.call('restoreBackup', { name }))).toEqual({
        kind: 'notFound',
        what: 'backup',
        id: name,
      });
    }
    expect(await content(shop)).toEqual(before);
    expect(readdirSync(shop.folder).filter((name) => name.includes('restoring'))).toEqual([]);
  });

  test('is refused while another process has the database open', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    const backup = await shop.must('makeBackup', {});
    const other = new Database(shop.file);
    other.prepare('SELECT count(*) FROM headers').get();
    expect(problemOf(await shop.call('restoreBackup', { name: backup.name }))).toMatchObject({ fault: 'busy' });
    other.close();
    expect(await shop.must('restoreBackup', { name: backup.name })).toMatchObject({ state: 'ready' });
  });
});

test('names of backups are read strictly', () => {
  const good = 'evenrun-000012-beforeMigration-2026-01-02T03-04-05Z.sqlite';
  expect(parseBackupName(good)).toEqual({
    name: good,
    number: 12,
    kind: 'beforeMigration',
    takenAt: '2026-01-02T03:04:05Z',
  });
  for (const bad of [
    'evenrun.sqlite',
    `../${good}`,
    `${good}-wal`,
    good.replace('000012', '12'),
    good.replace('before', 'after'),
  ]) {
    expect(parseBackupName(bad)).toBeNull();
  }
});

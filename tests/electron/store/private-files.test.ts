/** The data folder is its owner's alone: what is made there, and what an earlier version left open to others. */

import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { fileLog } from '../../../electron/output/file-log.ts';
import { keepPrivate } from '../../../electron/output/private-files.ts';
import { addPrimary, headerWith, openShop, temporaryFolder } from './shop.ts';

const modeOf = (path: string) => (statSync(path).mode & 0o7777).toString(8);

/** Every file and folder below, with what its mode lets others do; the folder itself is `.`. */
function modesIn(folder: string): Record<string, string> {
  const names = ['.', ...readdirSync(folder, { recursive: true }).map(String)];
  return Object.fromEntries(names.map((name) => [name, modeOf(join(folder, name))]));
}

/** The mode that each must have: folders 700, files 600. */
function wanted(modes: Readonly<Record<string, string>>): Record<string, string> {
  const isFolder = (name: string) => name === '.' || name === 'backups';
  return Object.fromEntries(Object.keys(modes).map((name) => [name, isFolder(name) ? '700' : '600']));
}

describe.skipIf(process.platform === 'win32')('in the data folder', () => {
  let umask = 0;
  beforeEach(() => {
    // As open as a system can be set to make files.
    umask = process.umask(0);
  });
  afterEach(() => {
    process.umask(umask);
  });

  test('everything that is made is for its owner only', async () => {
    const shop = openShop(join(temporaryFolder(), 'new', 'deep'));
    await headerWith(shop, [addPrimary('a')]);
    const { name } = await shop.must('makeBackup', {});
    const during = modesIn(shop.folder);
    expect(Object.keys(during)).toEqual(expect.arrayContaining(['evenrun.sqlite-wal', 'evenrun.sqlite-shm']));
    expect(during).toEqual(wanted(during));
    expect(modeOf(join(shop.folder, '..'))).toBe('700');
    await shop.must('restoreBackup', { name });
    fileLog(join(shop.folder, 'evenrun.log'), () => new Date()).write({ a: 1 });
    const after = modesIn(shop.folder);
    expect(Object.keys(after).filter((path) => /setAside|\.log$/.test(path))).toHaveLength(2);
    expect(after).toEqual(wanted(after));
  });

  test('a log that is the first thing in the folder is no different', () => {
    const folder = join(temporaryFolder(), 'new');
    fileLog(join(folder, 'crashes.log'), () => new Date()).write({ a: 1 });
    expect(modesIn(folder)).toEqual({ '.': '700', 'crashes.log': '600' });
  });

  test('what others could do is taken away at the next start; files of the user, and what links lead to, stay', async () => {
    const shop = openShop();
    await headerWith(shop, [addPrimary('a')]);
    const { name } = await shop.must('makeBackup', {});
    const log = ['', '-wal'].map((end) => [shop.file + end, `${shop.file}${end}.kept`] as const);
    for (const [from, to] of log) copyFileSync(from, to);
    await shop.close();
    for (const [to, from] of log) copyFileSync(from, to);
    for (const [, from] of log) rmSync(from);
    const mine = join(shop.folder, 'mine.txt');
    const theirs = join(temporaryFolder(), 'theirs.txt');
    for (const path of [mine, theirs, join(shop.folder, 'evenrun.log'), join(shop.folder, 'crashes.log.1')])
      writeFileSync(path, '');
    for (const path of [mine, theirs]) chmodSync(path, 0o644);
    symlinkSync(theirs, join(shop.folder, 'evenrun.link'));
    for (const each of readdirSync(shop.folder)) chmodSync(join(shop.folder, each), each === 'backups' ? 0o755 : 0o644);
    chmodSync(join(shop.folder, 'backups', name), 0o666);
    chmodSync(shop.folder, 0o755);
    const again = openShop(shop.folder);
    await again.must('start', {});
    const { 'mine.txt': ofMine, 'evenrun.link': ofTheirs, ...ours } = modesIn(shop.folder);
    expect([ofMine, ofTheirs]).toEqual(['644', '644']);
    expect(ours).toEqual(wanted(ours));
  });

  test('a file that its owner may only read stays so', () => {
    const file = join(temporaryFolder(), 'a');
    writeFileSync(file, '');
    chmodSync(file, 0o444);
    keepPrivate(file);
    expect(modeOf(file)).toBe('400');
  });

  test("a folder that is everyone's on purpose stays so", () => {
    const folder = mkdtempSync(join(tmpdir(), 'evenrun-shared-'));
    chmodSync(folder, 0o1777);
    mkdirSync(join(folder, 'inside'));
    keepPrivate(folder);
    expect(modeOf(folder)).toBe('1777');
    rmSync(folder, { recursive: true });
  });
});

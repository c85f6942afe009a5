/** R8: a database that cannot be written is shown and exported, and everything that would write says why it does not. */

import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, chownSync, copyFileSync, cpSync, existsSync, mkdirSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import type { ResponseOf } from '../../../electron/bridge/contract.ts';
import { adding } from '../../shelf-changes.ts';
import { childFile } from '../../trust/child-bundle.ts';
import { addPrimary, doStep, hashOf, headerWith, openShop, stockStraight, straight, temporaryFolder } from './shop.ts';

const CHILD = childFile('open-and-report');
const NOBODY = 65534;
const isRoot = process.getuid?.() === 0;
/** Root may write anywhere, so these run as another user, or on a disk of their own. */
const canBeNobody = isRoot && spawnSync('setpriv', ['--version']).status === 0;
const canMount = isRoot && spawnSync('unshare', ['-m', 'true']).status === 0;

const item = stockStraight('s1');

/** A folder that anyone may reach, with a database of one header and one stock item, closed. */
async function usedFolder() {
  const shop = openShop();
  const opened = await headerWith(shop, [addPrimary('a', [straight('p')])]);
  await shop.must('changeShelf', adding(item));
  await shop.close();
  return { folder: shop.folder, file: shop.file, header: opened.header };
}

interface Looked {
  readonly started: ResponseOf<'start'>;
  readonly opened: ResponseOf<'openHeader'>;
  readonly stock: unknown;
  readonly archive: { readonly ok: boolean };
  readonly exports: readonly { readonly value: { readonly fileName: string; readonly text: string } }[];
  readonly refused: Readonly<Record<string, unknown>>;
}

const asNobody = (folder: string, task = 'look') =>
  JSON.parse(
    execFileSync('setpriv', [`--reuid=${NOBODY}`, '--clear-groups', process.execPath, CHILD, folder, task], {
      encoding: 'utf8',
    }),
  );
const inMounts = (script: string) =>
  JSON.parse(execFileSync('unshare', ['-m', 'sh', '-ec', script], { encoding: 'utf8' }));
const child = (folder: string, task: string) => `"${process.execPath}" "${CHILD}" "${folder}" ${task}`;

/** Everything can be looked at and exported; every call that writes answers the storage problem with this fault. */
function expectOnlyLooked(looked: Looked, fault: string, name = 'Bench four'): void {
  const problem = { kind: 'storage', fault };
  expect(looked.started).toMatchObject({ state: 'ready', cannotWrite: problem });
  expect(looked.opened.header).toMatchObject({ name, primaries: [{ id: 'a' }] });
  expect(looked.stock).toMatchObject({ item });
  expect(looked.archive).toMatchObject({ ok: true });
  const [header, stock] = looked.exports.map(({ value }) => value);
  expect(header?.fileName).toBe(`${name}.evenrun.json`);
  expect(JSON.parse(header?.text ?? '')).toMatchObject({ header: { name, primaries: [{ id: 'a' }] } });
  expect([stock?.fileName, stock?.text]).toEqual(['stock.csv', expect.stringContaining('304 stainless')]);
  const names = Object.keys(looked.refused);
  expect(names.length).toBeGreaterThanOrEqual(10);
  expect(looked.refused).toEqual(Object.fromEntries(names.map((call) => [call, expect.objectContaining(problem)])));
}

describe.runIf(canBeNobody)('without permission to write', () => {
  test('the folder: it is shown, and left as it is', async () => {
    const { folder, file } = await usedFolder();
    chmodSync(file, 0o644);
    chmodSync(folder, 0o555);
    const before = hashOf(file);
    expectOnlyLooked(asNobody(folder), 'noPermission');
    expect([hashOf(file), readdirSync(folder)]).toEqual([before, ['evenrun.sqlite']]);
  });

  test('the file', async () => {
    const { folder, file } = await usedFolder();
    chmodSync(file, 0o444);
    chmodSync(folder, 0o777);
    const before = hashOf(file);
    expectOnlyLooked(asNobody(folder), 'noPermission');
    expect(hashOf(file)).toBe(before);
  });

  test("the user's own file, until the user allows it and starts again", async () => {
    const { folder, file } = await usedFolder();
    for (const path of [folder, file]) chownSync(path, NOBODY, NOBODY);
    chmodSync(file, 0o444);
    const { looked, before, again, after } = asNobody(folder, 'lookAndAllow');
    expectOnlyLooked(looked, 'noPermission');
    expect({ before, again, after }).toEqual({ before: false, again: null, after: true });
  });

  test('what an unclean end left in the log is shown with the rest', async () => {
    const shop = openShop();
    const { header } = await headerWith(shop, [addPrimary('a', [straight('p')])]);
    await shop.must('changeShelf', adding(item));
    await shop.must('commitSteps', {
      headerId: header.id,
      baseRevision: 1,
      steps: [doStep({ kind: 'setHeader', set: { name: 'Only in the log' } })],
    });
    const folder = join(temporaryFolder(), 'left');
    mkdirSync(folder);
    for (const end of ['', '-wal']) copyFileSync(shop.file + end, join(folder, `evenrun.sqlite${end}`));
    for (const name of readdirSync(folder)) chmodSync(join(folder, name), 0o444);
    chmodSync(folder, 0o555);
    chmodSync(join(folder, '..'), 0o755);
    expectOnlyLooked(asNobody(folder), 'noPermission', 'Only in the log');
  });

  test('and without permission to read, or to make the folder, it is said and nothing is shown', async () => {
    const { folder } = await usedFolder();
    chmodSync(folder, 0o700);
    const noPermission = { state: 'cannotOpen', problem: { kind: 'storage', fault: 'noPermission' }, backups: [] };
    expect(asNobody(folder, 'start')).toMatchObject(noPermission);
    chmodSync(folder, 0o755);
    expect(asNobody(folder, 'start')).toMatchObject(noPermission);
    const parent = temporaryFolder();
    chmodSync(parent, 0o755);
    expect(asNobody(join(parent, 'not', 'there'), 'start')).toMatchObject(noPermission);
    expect(existsSync(join(parent, 'not'))).toBe(false);
  });

  test('backups that cannot be read are no reason for a defect', async () => {
    const { folder, file } = await usedFolder();
    mkdirSync(join(folder, 'backups'), { mode: 0o700 });
    chmodSync(file, 0o644);
    chmodSync(folder, 0o777);
    expect(asNobody(folder, 'listBackups')).toMatchObject([{ kind: 'storage', fault: 'noPermission' }]);
    writeFileInPlaceOf(file);
    expect(asNobody(folder, 'start')).toMatchObject({ state: 'cannotOpen', problem: { kind: 'storage' }, backups: [] });
  });

  test('a damaged file is still called damaged', async () => {
    const { folder, file } = await usedFolder();
    writeFileInPlaceOf(file);
    chmodSync(file, 0o444);
    chmodSync(folder, 0o755);
    expect(asNobody(folder, 'start')).toMatchObject({ state: 'cannotOpen', problem: { fault: 'corrupt' } });
  });
});

describe.runIf(canMount)('a disk', () => {
  test('mounted read-only: shown, and said', async () => {
    const { folder } = await usedFolder();
    const script = `mount --bind "${folder}" "${folder}"; mount -o remount,bind,ro "${folder}"; ${child(folder, 'look')}`;
    expectOnlyLooked(inMounts(script), 'readOnly');
  });

  test('full from the start: shown, and said, until there is room and a new start', async () => {
    const { folder } = await usedFolder();
    const disk = temporaryFolder();
    cpSync(folder, join(disk, 'kept'), { recursive: true });
    const mounted = join(disk, 'mounted');
    mkdirSync(mounted);
    const script = `mount -t tmpfs -o size=1m none "${mounted}"; cp "${disk}"/kept/* "${mounted}"
      head -c 4m /dev/zero > "${mounted}/rest" 2>/dev/null || true; ${child(mounted, 'lookAndGrow')}`;
    const { looked, before, again, after } = inMounts(script);
    expectOnlyLooked(looked, 'diskFull');
    expect({ before, again, after }).toEqual({ before: false, again: null, after: true });
  });
});

test('what may be written is opened for writing, and nothing is said', async () => {
  const { folder } = await usedFolder();
  const started = await openShop(folder).must('start', {});
  expect(started).toMatchObject({ state: 'ready', cannotWrite: null, notices: [] });
});

/** The same file, as far as its owner and mode go, with nothing sound in it. */
function writeFileInPlaceOf(file: string): void {
  const { mode } = statSync(file);
  execFileSync('sh', ['-c', `head -c 9000 /dev/zero | tr '\\0' x > "${file}"`]);
  chmodSync(file, mode);
}

/** Electron is used where it is whole, and fetched only where there is a screen to show it on. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { findElectronRuntime } from '../../../electron/start/electron-runtime.ts';
import { temporaryFolder } from '../../temporary-folder.ts';

const WHOLE = { record: true, runtime: true, version: '45.4.1' };

function electronFolder({ record, runtime, version }: { record: boolean; runtime: boolean; version: string }): string {
  const folder = temporaryFolder('runtime');
  writeFileSync(join(folder, 'package.json'), '{ "version": "45.4.1" }');
  if (record) writeFileSync(join(folder, 'path.txt'), 'electron\n');
  mkdirSync(join(folder, 'dist'));
  if (runtime) writeFileSync(join(folder, 'dist', 'electron'), '');
  if (version !== '') writeFileSync(join(folder, 'dist', 'version'), version);
  return folder;
}

const SCREEN = { DISPLAY: ':0' };

test('a runtime that is there, with a screen to show on, is found', () => {
  const folder = electronFolder(WHOLE);
  const found = { kind: 'found', executable: join(folder, 'dist/electron') };
  expect(findElectronRuntime('linux', SCREEN, folder)).toEqual(found);
  expect(findElectronRuntime('linux', { WAYLAND_DISPLAY: 'wayland-0' }, folder)).toEqual(found);
  expect(findElectronRuntime('win32', {}, folder)).toEqual(found);
});

test.each([
  { record: false, runtime: false, version: '' },
  { ...WHOLE, runtime: false },
  { ...WHOLE, record: false },
  { ...WHOLE, version: '' },
  { ...WHOLE, version: '44.0.0' },
])('without a whole runtime (%j) one may be fetched', (parts) => {
  expect(findElectronRuntime('linux', SCREEN, electronFolder(parts))).toEqual({ kind: 'missing' });
});

test('a Linux without a screen gets the browser, and nothing is fetched for it', () => {
  for (const folder of [electronFolder(WHOLE), electronFolder({ ...WHOLE, record: false })]) {
    expect(findElectronRuntime('linux', {}, folder)).toEqual({
      kind: 'none',
      why: 'There is no screen for a desktop window',
    });
  }
});

test("who has said that Electron's runtime is not to be fetched is heeded, and uses one that is there", () => {
  const env = { ...SCREEN, ELECTRON_SKIP_BINARY_DOWNLOAD: '1' };
  expect(findElectronRuntime('linux', env, electronFolder({ ...WHOLE, record: false }))).toMatchObject({
    kind: 'none',
    why: expect.stringContaining('ELECTRON_SKIP_BINARY_DOWNLOAD is set'),
  });
  expect(findElectronRuntime('linux', env, electronFolder(WHOLE)).kind).toBe('found');
});

test('a folder that the environment names comes before the installed one', () => {
  const named = join(electronFolder(WHOLE), 'dist');
  const env = { ...SCREEN, ELECTRON_OVERRIDE_DIST_PATH: named };
  const found = { kind: 'found', executable: join(named, 'electron') };
  expect(findElectronRuntime('linux', env, electronFolder(WHOLE))).toEqual(found);
});

test('a named folder without a runtime is told, and nothing is fetched in its stead', () => {
  const env = { ...SCREEN, ELECTRON_OVERRIDE_DIST_PATH: '/nowhere' };
  expect(findElectronRuntime('linux', env, electronFolder(WHOLE))).toEqual({
    kind: 'none',
    why: 'ELECTRON_OVERRIDE_DIST_PATH names /nowhere, and no Electron runtime is in it',
  });
});

test('by default the installed package is looked at', () => {
  expect(['found', 'missing']).toContain(findElectronRuntime('linux', SCREEN).kind);
});

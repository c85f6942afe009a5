/** Electron is used where it is, and never fetched. */

import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { findElectronRuntime } from '../../../electron/start/electron-runtime.ts';
import { temporaryFolder } from '../../temporary-folder.ts';

function electronFolder({ record, runtime }: { record: boolean; runtime: boolean }): string {
  const folder = temporaryFolder('runtime');
  if (record) writeFileSync(join(folder, 'path.txt'), 'electron\n');
  mkdirSync(join(folder, 'dist'));
  if (runtime) writeFileSync(join(folder, 'dist', 'electron'), '');
  return folder;
}

const SCREEN = { DISPLAY: ':0' };

test('a runtime that is there, with a screen to show on, is found', () => {
  const folder = electronFolder({ record: true, runtime: true });
  const found = { kind: 'found', executable: join(folder, 'dist/electron') };
  expect(findElectronRuntime('linux', SCREEN, folder)).toEqual(found);
  expect(findElectronRuntime('linux', { WAYLAND_DISPLAY: 'wayland-0' }, folder)).toEqual(found);
  expect(findElectronRuntime('win32', {}, folder)).toEqual(found);
});

test.each([
  { record: false, runtime: false },
  { record: true, runtime: false },
  { record: false, runtime: true },
])('without a runtime (%j) one plain line says so', (parts) => {
  expect(findElectronRuntime('linux', SCREEN, electronFolder(parts))).toMatchObject({
    kind: 'none',
    why: expect.stringContaining('not installed'),
  });
});

test('a Linux without a screen gets the browser', () => {
  const folder = electronFolder({ record: true, runtime: true });
  expect(findElectronRuntime('linux', {}, folder)).toMatchObject({ why: expect.stringContaining('no screen') });
});

test('by default the installed package is looked at', () => {
  expect(['found', 'none']).toContain(findElectronRuntime('linux', SCREEN).kind);
});

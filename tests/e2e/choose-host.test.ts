/** The program is tested in its desktop window wherever there is one, and else over the loopback host. */

import { expect, test } from 'vitest';
import type { RuntimeSearch } from '../../electron/start/electron-runtime.ts';
import { chooseHost } from './choose-host.ts';

const FOUND: RuntimeSearch = { kind: 'found', executable: '/opt/electron' };
const NONE: RuntimeSearch = { kind: 'none', why: 'There is no screen for a desktop window' };

test('a runtime that is there is used, unless the test needs the loopback host', () => {
  expect(chooseHost({}, FOUND)).toEqual({ kind: 'electron', executable: '/opt/electron' });
  expect(chooseHost({ host: 'loopback' }, FOUND)).toEqual({ kind: 'loopback' });
});

test('a browser or a context of the test’s own means the loopback host', () => {
  expect(chooseHost({ browser: {} }, FOUND)).toEqual({ kind: 'loopback' });
  expect(chooseHost({ context: { colorScheme: 'dark' } }, FOUND)).toEqual({ kind: 'loopback' });
});

test('without a runtime it is always the loopback host', () => {
  for (const wishes of [{}, { host: 'loopback' as const }, { browser: {} }]) {
    expect(chooseHost(wishes, NONE)).toEqual({ kind: 'loopback' });
  }
});

/** The open database as calls are given it: what only reads cannot write, and what may not write says why. */

import { expect, test } from 'vitest';
import { success } from '../../../core/result.ts';
import { Connection } from '../../../electron/store/file/connection.ts';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { temporaryFolder } from './shop.ts';

const DARK = { theme: 'dark', density: 'desk' } as const;

test('what says that it only reads cannot write, and is a defect when it tries; writing goes on as before', () => {
  const connection = new Connection(dataFolder(temporaryFolder()), () => new Date());
  connection.use(({ settings }) => success(settings.savePreferences({ theme: 'light', density: 'bench' })));
  expect(() => connection.read(({ settings }) => settings.savePreferences(DARK))).toThrow('only read');
  const kept = () => connection.read(({ settings }) => settings.preferences());
  expect(kept()).toEqual(success({ theme: 'light', density: 'bench' }));
  expect(connection.use(({ settings }) => success(settings.savePreferences(DARK))).ok).toBe(true);
  expect(kept()).toEqual(success(DARK));
  connection.close();
});

test('it takes writes once it is open, and not after it is closed', () => {
  const connection = new Connection(dataFolder(temporaryFolder()), () => new Date());
  expect(connection.isWritable).toBe(false);
  expect(connection.open().ok).toBe(true);
  expect(connection.isWritable).toBe(true);
  connection.close();
  expect(connection.isWritable).toBe(false);
});

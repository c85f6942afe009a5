/** The open database as calls are given it: what only reads cannot write, and what may not write says why. */

import { expect, test } from 'vitest';
import { success } from '../../../core/result.ts';
import { createConnection } from '../../../electron/store/file/connection.ts';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { temporaryFolder } from './shop.ts';

const DARK = { theme: 'dark', density: 'desk' } as const;

test('what says that it only reads cannot write, and is a defect when it tries; writing goes on as before', () => {
  const connection = createConnection(dataFolder(temporaryFolder()), () => new Date());
  connection.use(({ preferences }) => success(preferences.save({ theme: 'light', density: 'bench' })));
  expect(() => connection.read(({ preferences }) => preferences.save(DARK))).toThrow('only read');
  const kept = () => connection.read(({ preferences }) => preferences.read().preferences);
  expect(kept()).toEqual(success({ theme: 'light', density: 'bench' }));
  expect(connection.use(({ preferences }) => success(preferences.save(DARK))).ok).toBe(true);
  expect(kept()).toEqual(success(DARK));
  connection.close();
});

test('it takes writes once it is open, and not after it is closed', () => {
  const connection = createConnection(dataFolder(temporaryFolder()), () => new Date());
  expect(connection.isWritable).toBe(false);
  expect(connection.open().ok).toBe(true);
  expect(connection.isWritable).toBe(true);
  connection.close();
  expect(connection.isWritable).toBe(false);
});

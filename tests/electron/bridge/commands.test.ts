/** The table of commands: what page and menu bar both rely on. */

import { expect, test } from 'vitest';
import { COMMANDS } from '../../../electron/bridge/commands.ts';

const entries = Object.values(COMMANDS);

test('no two commands share a key or a name', () => {
  const keys = entries.flatMap((entry) => entry.keys ?? []);
  expect(keys.length).toBeGreaterThan(30);
  expect(new Set(keys).size).toBe(keys.length);
  expect(new Set(entries.map(({ name }) => name)).size).toBe(entries.length);
});

test('the key that Windows shows is one of the keys', () => {
  const faults = entries.filter(({ keys, windowsKey }) => windowsKey !== undefined && !keys?.includes(windowsKey));
  expect(faults).toEqual([]);
});

/** The usual data folder on each system. */

import { expect, test } from 'vitest';
import { defaultDataFolder } from '../../../electron/data-folder.ts';

test.each([
  ['linux', {}, '/home/ann', '/home/ann/.config/Evenrun/headers'],
  ['linux', { XDG_CONFIG_HOME: '/cfg' }, '/home/ann', '/cfg/Evenrun/headers'],
  ['linux', { XDG_CONFIG_HOME: 'relative' }, '/home/ann', '/home/ann/.config/Evenrun/headers'],
  ['linux', { XDG_CONFIG_HOME: '' }, '/home/ann', '/home/ann/.config/Evenrun/headers'],
  ['darwin', {}, '/Users/ann', '/Users/ann/Library/Application Support/Evenrun/headers'],
  ['win32', { APPDATA: 'D:\\Roam' }, 'C:\\Users\\ann', 'D:\\Roam\\Evenrun\\headers'],
  ['win32', {}, 'C:\\Users\\ann', 'C:\\Users\\ann\\AppData\\Roaming\\Evenrun\\headers'],
] as const)('%s with %j and home %s: %s', (platform, env, homeFolder, folder) => {
  expect(defaultDataFolder({ platform, env, homeFolder })).toBe(folder);
});

/** A folder that looks like an unpacked Electron runtime for Linux, as far as the packager looks. */

import { chmodSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { temporaryFolder } from '../temporary-folder.ts';

/** Marks where the fuses are in Electron's binary: a fixed text, the version of the list, its length, one letter a fuse. */
const FUSE_SENTINEL = 'dL7pKGdnNz796PbbjQWNKmHXBZaB9tsX';
/** Electron's own defaults, in its order: run as Node, cookie encryption, NODE_OPTIONS, inspect, asar integrity, asar only, snapshot, file privileges, wasm traps. */
const DEFAULT_FUSES = '101100011';

/** Makes the folder and returns it. Its binary carries fuses at their defaults, and cannot run. */
export function makeElectronStandIn(): string {
  const folder = temporaryFolder('electron');
  const electronPackage = new URL('../../node_modules/electron/package.json', import.meta.url);
  const { version } = JSON.parse(readFileSync(electronPackage, 'utf8')) as { readonly version: string };
  writeFileSync(join(folder, 'version'), version);
  writeFileSync(join(folder, 'LICENSE'), 'stand-in');
  mkdirSync(join(folder, 'resources'));
  mkdirSync(join(folder, 'locales'));
  writeFileSync(join(folder, 'locales', 'en-US.pak'), '');
  for (const name of ['electron', 'chrome-sandbox', 'chrome_crashpad_handler']) {
    const fuses =
      name === 'electron' ? `${FUSE_SENTINEL}\u0001${String.fromCharCode(DEFAULT_FUSES.length)}${DEFAULT_FUSES}` : '';
    writeFileSync(join(folder, name), `#!/bin/false\n${fuses}\n`, 'latin1');
    chmodSync(join(folder, name), 0o755);
  }
  return folder;
}

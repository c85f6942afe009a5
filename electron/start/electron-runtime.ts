/** Finds out whether an Electron runtime is at hand, and whether one may be fetched. */

import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

export type RuntimeSearch =
  | { readonly kind: 'found'; readonly executable: string }
  /** It is not here, and there is a screen to show it on: it may be fetched. */
  | { readonly kind: 'missing' }
  /** A sentence says why there is none and none is to be fetched. */
  | { readonly kind: 'none'; readonly why: string };

/** The installed package `electron`, which comes without its runtime. */
export function electronPackageFolder(): string {
  return dirname(createRequire(import.meta.url).resolve('electron/package.json'));
}

/** Where the executable lies within a runtime's folder. Null: Electron is not built for this system. */
export function executableWithin(platform: NodeJS.Platform): string | null {
  switch (platform) {
    case 'darwin':
      return 'Electron.app/Contents/MacOS/Electron';
    case 'win32':
      return 'electron.exe';
    case 'linux':
      return 'electron';
    default:
      return null;
  }
}

/** The version of the runtime that belongs to the package. */
export function wantedVersion(electronFolder: string): string {
  const { version } = JSON.parse(readFileSync(join(electronFolder, 'package.json'), 'utf8')) as {
    readonly version: string;
  };
  return version;
}

/** A runtime's own word for what it is; null where it has none. */
export function versionIn(runtimeFolder: string): string | null {
  const file = join(runtimeFolder, 'version');
  return existsSync(file) ? readFileSync(file, 'utf8').trim().replace(/^v/, '') : null;
}

/**
 * The record `path.txt` is written last, so a runtime without it is half-written. Requiring `electron` would
 * read the same files, but also fetch what is missing, without a limit of time.
 */
function installedRuntime(electronFolder: string): string | null {
  const record = join(electronFolder, 'path.txt');
  if (!existsSync(record)) return null;
  const runtime = join(electronFolder, 'dist');
  const executable = join(runtime, readFileSync(record, 'utf8').trim());
  return existsSync(executable) && versionIn(runtime) === wantedVersion(electronFolder) ? executable : null;
}

/** A folder that the user named is used as it is, whatever its version; nothing is fetched in its stead. */
function namedRuntime(folder: string, platform: NodeJS.Platform): RuntimeSearch {
  const executable = join(folder, executableWithin(platform) ?? 'electron');
  if (existsSync(executable)) return { kind: 'found', executable };
  return { kind: 'none', why: `ELECTRON_OVERRIDE_DIST_PATH names ${folder}, and no Electron runtime is in it` };
}

/** Whether a window or a browser could be shown to the person who starts the program. */
export function hasScreen(platform: NodeJS.Platform, env: NodeJS.ProcessEnv): boolean {
  return platform !== 'linux' || Boolean(env['DISPLAY']) || Boolean(env['WAYLAND_DISPLAY']);
}

/** Looks in the folder that the environment names, else in the electron package's. */
export function findElectronRuntime(
  platform: NodeJS.Platform,
  env: NodeJS.ProcessEnv,
  electronFolder = electronPackageFolder(),
): RuntimeSearch {
  if (!hasScreen(platform, env)) return { kind: 'none', why: 'There is no screen for a desktop window' };
  const named = env['ELECTRON_OVERRIDE_DIST_PATH'];
  if (named) return namedRuntime(named, platform);
  const executable = installedRuntime(electronFolder);
  if (executable !== null) return { kind: 'found', executable };
  // Electron's own name for the wish, from the days when `npm ci` fetched the runtime.
  if (env['ELECTRON_SKIP_BINARY_DOWNLOAD'])
    return { kind: 'none', why: 'The Electron runtime is not installed, and ELECTRON_SKIP_BINARY_DOWNLOAD is set' };
  return { kind: 'missing' };
}

/** Finds out whether an Electron runtime is at hand, without fetching one. */

import { existsSync, readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

export type RuntimeSearch =
  | { readonly kind: 'found'; readonly executable: string }
  /** A sentence says why not. */
  | { readonly kind: 'none'; readonly why: string };

/** Requiring `electron` would try to download it; its own record of where the runtime lies is read instead. */
function installedRuntime(electronFolder: string): string | null {
  const record = join(electronFolder, 'path.txt');
  if (!existsSync(record)) return null;
  const executable = join(electronFolder, 'dist', readFileSync(record, 'utf8').trim());
  return existsSync(executable) ? executable : null;
}

function hasScreen(platform: NodeJS.Platform, env: NodeJS.ProcessEnv): boolean {
  return platform !== 'linux' || Boolean(env['DISPLAY']) || Boolean(env['WAYLAND_DISPLAY']);
}

/** Looks in the electron package's folder, by default the installed one. */
export function findElectronRuntime(
  platform: NodeJS.Platform,
  env: NodeJS.ProcessEnv,
  electronFolder = dirname(createRequire(import.meta.url).resolve('electron/package.json')),
): RuntimeSearch {
  const executable = installedRuntime(electronFolder);
  if (executable === null) {
    return { kind: 'none', why: 'The Electron runtime is not installed (`npx install-electron` would fetch it)' };
  }
  if (!hasScreen(platform, env)) return { kind: 'none', why: 'There is no screen for a desktop window' };
  return { kind: 'found', executable };
}

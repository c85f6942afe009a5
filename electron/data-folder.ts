/** Where the database lives when nobody says otherwise; the same for both hosts, so that they show the same headers. */

import { posix, win32 } from 'node:path';

export interface Surroundings {
  readonly platform: NodeJS.Platform;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly homeFolder: string;
}

/** The system's folder for settings and documents of programs: the one Electron calls `appData`. */
function programsFolder({ platform, env, homeFolder }: Surroundings): string {
  if (platform === 'win32') return env['APPDATA'] ?? win32.join(homeFolder, 'AppData', 'Roaming');
  if (platform === 'darwin') return posix.join(homeFolder, 'Library', 'Application Support');
  const configured = env['XDG_CONFIG_HOME'];
  // The XDG Base Directory Specification says to ignore a relative path here.
  return configured?.startsWith('/') === true ? configured : posix.join(homeFolder, '.config');
}

/** The folder of the database and its backups, as an absolute path. */
export function defaultDataFolder(surroundings: Surroundings): string {
  const path = surroundings.platform === 'win32' ? win32 : posix;
  return path.join(programsFolder(surroundings), 'Evenrun', 'headers');
}

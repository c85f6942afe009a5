/** Why a runtime died as soon as it was started, and what mends it, in words for the person at the terminal. */

import { existsSync } from 'node:fs';
import { dirname, join } from 'node:path';

export interface Death {
  readonly executable: string;
  /** The last that it wrote to its error stream. */
  readonly lastWords: string;
  /** Null when a signal ended it. */
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
}

/** A setting of the system that keeps programs from making a sandbox of their own, and the value that lets them. */
const SANDBOX_SETTINGS: readonly (readonly [setting: string, value: string])[] = [
  ['kernel.apparmor_restrict_unprivileged_userns', '0'],
  ['kernel.unprivileged_userns_clone', '1'],
];
/** Where neither of those is known, the count of them may be held at none. */
const SANDBOX_COUNT = ['user.max_user_namespaces', '15000'] as const;

const SANDBOX_REFUSAL = /SUID sandbox helper binary was found, but is not configured correctly|No usable sandbox/;
const ROOT_REFUSAL = /Running as root without/;
const MISSING_LIBRARY = /error while loading shared libraries: (\S+?):/;
const NO_DISPLAY = /Missing X server or \$DISPLAY|Unable to open X display|Failed to connect to Wayland/i;

/** The text as one word of a POSIX shell. */
function shellWord(text: string): string {
  return /^[\w./-]+$/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`;
}

function sandboxMends(executable: string, isThere: (path: string) => boolean): readonly string[] {
  const helper = shellWord(join(dirname(executable), 'chrome-sandbox'));
  const known = SANDBOX_SETTINGS.find(([setting]) => isThere(`/proc/sys/${setting.replace('.', '/')}`));
  const [setting, value] = known ?? SANDBOX_COUNT;
  return [
    'Either of these mends it, and then `npm start` opens the window:',
    '  1. for this program only: let its sandbox helper do its work as root',
    `       sudo chown root:root ${helper} && sudo chmod 4755 ${helper}`,
    '  2. for every program, until the machine starts again: let programs make sandboxes of their own',
    `       sudo sysctl -w ${setting}=${value}`,
  ];
}

function howItEnded({ code, signal }: Death): string {
  if (signal !== null) return `signal ${signal}`;
  // Windows tells its own faults by numbers that are known in hexadecimal.
  return code !== null && code > 255 ? `code 0x${code.toString(16).toUpperCase()}` : `code ${code}`;
}

function reasonFor(death: Death): string {
  const library = MISSING_LIBRARY.exec(death.lastWords)?.[1];
  if (library !== undefined) return `it wants the library ${library}, which this system does not have.`;
  if (ROOT_REFUSAL.test(death.lastWords)) return 'it does not run as root. Start it as an ordinary user.';
  if (NO_DISPLAY.test(death.lastWords)) return 'it could not reach the screen.';
  const line = death.lastWords.trim().split('\n').at(-1)?.trim();
  return line
    ? `Electron ended at once (${howItEnded(death)}): ${line}`
    : `Electron ended at once (${howItEnded(death)}).`;
}

/** The lines to show, the reason first. `isThere` looks at the system's settings. */
export function wordsForDeath(death: Death, isThere: (path: string) => boolean = existsSync): readonly string[] {
  const start = 'The desktop window did not open: ';
  if (!SANDBOX_REFUSAL.test(death.lastWords)) return [start + reasonFor(death)];
  return [
    `${start}this system does not let Electron make its sandbox, and Evenrun does not run without one.`,
    ...sandboxMends(death.executable, isThere),
  ];
}

/** The options of `npm start`. */

import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
// Types only: reading all of core takes longer than the rest of the start.
import type { Result } from '../../core/index.ts';

export interface StartOptions {
  /** Use the local browser even where Electron could be started. */
  readonly inBrowser: boolean;
  /** False: the address is only printed. */
  readonly opensBrowser: boolean;
  /** Absolute; null means the usual one. */
  readonly dataFolder: string | null;
  /** 0 takes any free port. */
  readonly port: number;
}

export const START_USAGE = [
  'npm start                          the desktop window, or your browser where there can be none',
  'npm start -- --browser             always your browser; nothing is fetched',
  'npm start -- --no-open             print the address for the browser without opening it',
  'npm start -- --data <folder>       keep the headers in this folder',
  'npm start -- --port <number>       serve the browser on this port; any free one otherwise',
].join('\n');

function readPort(text: string | undefined): number | null {
  if (text === undefined) return 0;
  if (!/^\d{1,5}$/.test(text)) return null;
  const port = Number(text);
  return port <= 65_535 ? port : null;
}

/** Problems are sentences, for they are shown on a terminal and nowhere else. */
export function readStartOptions(args: readonly string[], workingFolder: string): Result<StartOptions, string> {
  try {
    const { values } = parseArgs({
      args: [...args],
      options: {
        browser: { type: 'boolean' },
        'no-open': { type: 'boolean' },
        data: { type: 'string' },
        port: { type: 'string' },
      },
    });
    const port = readPort(values.port);
    if (port === null)
      return { ok: false, problems: [`A port is a whole number from 0 to 65535, and this is "${values.port}".`] };
    if (values.data === '') return { ok: false, problems: ['After --data comes the path of a folder.'] };
    const dataFolder = values.data === undefined ? null : resolve(workingFolder, values.data);
    // A port means the browser: the desktop window has none.
    const inBrowser = values.browser === true || port !== 0;
    return { ok: true, value: { inBrowser, opensBrowser: values['no-open'] !== true, dataFolder, port } };
  } catch (cause) {
    // parseArgs throws for what it does not know.
    if (!(cause instanceof TypeError)) throw cause;
    return { ok: false, problems: [cause.message] };
  }
}

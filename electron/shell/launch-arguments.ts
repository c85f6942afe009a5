/** What the program was started with: files to open, and perhaps another data folder. */

import { resolve } from 'node:path';

export interface LaunchArguments {
  /** Absolute; null means the usual one. */
  readonly dataFolder: string | null;
  /** Absolute paths, in the order given. */
  readonly files: readonly string[];
}

const DATA_SWITCH = '--data=';

/** Files that the system may hand over: the program's own, and plain JSON. */
const OPENABLE = /\.(?:json|evenrun)$/i;

/**
 * Reads a command line. Everything else that begins with a dash belongs to Chromium, which also may reorder the line; paths are taken
 * relative to the folder that the command was given in.
 */
export function readLaunchArguments(argv: readonly string[], workingFolder: string): LaunchArguments {
  const folder = argv.findLast((argument) => argument.startsWith(DATA_SWITCH))?.slice(DATA_SWITCH.length);
  return {
    dataFolder: folder === undefined || folder === '' ? null : resolve(workingFolder, folder),
    files: argv
      .slice(1)
      .filter((argument) => !argument.startsWith('-') && OPENABLE.test(argument))
      .map((argument) => resolve(workingFolder, argument)),
  };
}

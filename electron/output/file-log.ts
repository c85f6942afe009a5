/** The log for developers: lines of JSON in a file beside the database, kept small, never sent anywhere. */

import { appendFileSync, renameSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import { makePrivateFolder } from './private-files.ts';

export interface FileLog {
  /** Adds a line. A log that cannot be written must not stop the program: the line then goes to standard error. */
  write(entry: Readonly<Record<string, unknown>>): void;
}

/** One older file is kept beside the present one, so the log takes at most twice this. */
const BYTES_LIMIT = 512 * 1024;
const TEXT_LIMIT = 8000;

export function fileLog(file: string, clock: () => Date): FileLog {
  return {
    write(entry) {
      const line = `${JSON.stringify({ at: clock().toISOString(), ...entry })}\n`;
      try {
        makePrivateFolder(dirname(file));
        const size = statSync(file, { throwIfNoEntry: false })?.size ?? 0;
        if (size + line.length > BYTES_LIMIT) renameSync(file, `${file}.1`);
        appendFileSync(file, line, { mode: 0o600 });
      } catch (cause) {
        process.stderr.write(`The log ${file} cannot be written (${String(cause)}): ${line}`);
      }
    },
  };
}

/** What was thrown, with its stack and what caused it, cut to a length that a log can bear. */
export function wordsOf(cause: unknown): string {
  if (!(cause instanceof Error)) return String(cause).slice(0, TEXT_LIMIT);
  const inner = cause.cause === undefined ? '' : `\ncaused by ${wordsOf(cause.cause)}`;
  return `${cause.stack ?? cause.message}${inner}`.slice(0, TEXT_LIMIT);
}

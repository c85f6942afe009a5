/** The settings that every connection to the database must run under, and the proof that it does. */

import type Database from 'better-sqlite3';

/** Name, value to set, value to read back. The first four change no file; journal_mode comes before synchronous. */
const PRAGMAS: readonly (readonly [name: string, set: string, read: string | number])[] = [
  ['busy_timeout', '5000', 5000],
  ['trusted_schema', 'OFF', 0],
  ['cell_size_check', 'ON', 1],
  ['mmap_size', '0', 0],
  ['journal_mode', 'WAL', 'wal'],
  // The library is built to fall back to NORMAL, under which a power cut can take acknowledged edits away.
  ['synchronous', 'FULL', 2],
  ['fullfsync', 'ON', 1],
  ['checkpoint_fullfsync', 'ON', 1],
  ['foreign_keys', 'ON', 1],
];

export function setPragmas(db: Database.Database): void {
  for (const [name, value] of PRAGMAS) db.pragma(`${name} = ${value}`);
}

/** For a connection that only reads: the file's content is not trusted, and nothing of the file is changed. */
export function setReaderPragmas(db: Database.Database): void {
  for (const [name, value] of PRAGMAS.slice(0, 4)) db.pragma(`${name} = ${value}`);
}

/** What does not stand as set, in words for the log; empty when all is well. To be asked again after a first commit. */
export function pragmaMismatches(db: Database.Database): string[] {
  return PRAGMAS.flatMap(([name, , wanted]) => {
    const found: unknown = db.pragma(name, { simple: true });
    return found === wanted ? [] : [`${name} is ${String(found)}, wanted ${wanted}`];
  });
}

/** Turns what SQLite and the file system throw into storage problems. */

import { accessSync, constants, existsSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import type { StorageFault, StorageProblem } from '../../../core/index.ts';
import { wordsOf } from '../../output/file-log.ts';

/** Something is there but is not what the program writes: thrown by what reads it, a problem by `expectedProblem`. */
export class Damaged extends Error {
  override readonly name = 'Damaged';
  /** Of the one header that it concerns; undefined: more may be wrong. */
  readonly headerId: string | undefined;

  constructor(message: string, headerId?: string) {
    super(message);
    this.headerId = headerId;
  }
}

/** Prefixes of SQLite's extended result codes; the first that fits counts. */
const SQLITE_FAULTS: readonly (readonly [prefix: string, fault: StorageFault])[] = [
  ['SQLITE_FULL', 'diskFull'],
  // The shared-memory file could not be made larger; what stands in the way is room.
  ['SQLITE_IOERR_SHMSIZE', 'diskFull'],
  ['SQLITE_IOERR', 'ioError'],
  ['SQLITE_CANTOPEN', 'ioError'],
  ['SQLITE_READONLY', 'readOnly'],
  ['SQLITE_PERM', 'noPermission'],
  ['SQLITE_AUTH', 'noPermission'],
  ['SQLITE_CORRUPT', 'corrupt'],
  ['SQLITE_NOTADB', 'corrupt'],
  ['SQLITE_BUSY', 'busy'],
  ['SQLITE_LOCKED', 'busy'],
  // Several processes opened, closed and locked it at once for too long.
  ['SQLITE_PROTOCOL', 'busy'],
];

const SYSTEM_FAULTS: Readonly<Record<string, StorageFault>> = {
  ENOSPC: 'diskFull',
  EDQUOT: 'diskFull',
  EFBIG: 'diskFull',
  EROFS: 'readOnly',
  EACCES: 'noPermission',
  EPERM: 'noPermission',
  ENOENT: 'missing',
  ENOTDIR: 'missing',
  EBUSY: 'busy',
  ENAMETOOLONG: 'pathTooLong',
  // Something else stands where a file or a folder of ours should.
  EISDIR: 'notOurs',
  EEXIST: 'notOurs',
  ELOOP: 'notOurs',
};

export function storageProblem(fault: StorageFault, file: string, detail: string): StorageProblem {
  return { kind: 'storage', fault, file, detail };
}

/** The problem behind something thrown while working on `file`; null when it is not the disk's or the database's doing. */
function storageProblemOf(cause: unknown, file: string): StorageProblem | null {
  if (cause instanceof Damaged) {
    const { headerId, message } = cause;
    return headerId === undefined
      ? storageProblem('corrupt', file, message)
      : { kind: 'damagedHeader', headerId, detail: message };
  }
  if (cause instanceof Database.SqliteError) {
    const fault = SQLITE_FAULTS.find(([prefix]) => cause.code.startsWith(prefix))?.[1];
    if (fault === undefined) return null;
    const seen = /^SQLITE_(?:CANTOPEN|READONLY)/.test(cause.code) ? whyNotWritten(file) : null;
    return storageProblem(seen ?? fault, file, `${cause.code}: ${cause.message}`);
  }
  const code = systemCode(cause);
  return code === null
    ? null
    : storageProblem(SYSTEM_FAULTS[code] ?? 'ioError', file, String((cause as Error).message));
}

/** As storageProblemOf, for where nothing else is expected: anything else is a defect, and is thrown on. */
export function expectedProblem(cause: unknown, file: string): StorageProblem {
  const problem = storageProblemOf(cause, file);
  if (problem === null) throw cause;
  return problem;
}

/**
 * As storageProblemOf, for the moment of opening, when nothing thrown may leave the user without the way to the backups:
 * what is neither the disk's nor a known fault of the database comes of what stands in the file.
 */
export function openingProblemOf(cause: unknown, file: string): StorageProblem {
  return storageProblemOf(cause, file) ?? storageProblem('corrupt', file, wordsOf(cause));
}

/** SQLite would not write: the file, its folder or the connection is for reading only. */
export function isWriteRefused(cause: unknown): boolean {
  return cause instanceof Database.SqliteError && cause.code.startsWith('SQLITE_READONLY');
}

/** SQLite says "unable to open" or "readonly" for many reasons; the file system knows which. Null: it sees none. */
function whyNotWritten(file: string): StorageFault | null {
  const folder = dirname(file);
  if (!existsSync(folder)) return 'missing';
  for (const path of existsSync(file) ? [folder, file] : [folder]) {
    try {
      accessSync(path, constants.R_OK | constants.W_OK);
    } catch (cause) {
      return systemCode(cause) === 'EROFS' ? 'readOnly' : 'noPermission';
    }
  }
  return null;
}

/** Null: not an answer of the operating system. */
function systemCode(cause: unknown): string | null {
  if (!(cause instanceof Error)) return null;
  const { code, syscall } = cause as NodeJS.ErrnoException;
  return typeof code === 'string' && syscall !== undefined ? code : null;
}

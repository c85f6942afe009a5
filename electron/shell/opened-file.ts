/** Reads a file that the user or the system asked to open: a regular file of bearable size, and nothing else. */

import { constants } from 'node:fs';
import { lstat, open } from 'node:fs/promises';
import { basename } from 'node:path';
import { failure, type Problem, type Result, success } from '../../core/index.ts';

/** A header of 8 primaries of 20 pieces is some 30 KiB. */
export const OPENED_FILE_LIMIT_BYTES = 10 * 1024 * 1024;

export interface OpenedFile {
  readonly fileName: string;
  /** Base64. */
  readonly content: string;
}

const NO_FOLLOW = constants.O_NOFOLLOW ?? 0;
const NO_WAIT = constants.O_NONBLOCK ?? 0;

function notRegular(): Problem {
  return { kind: 'unreadableFile', reason: 'notAHeader', path: [], detail: 'a folder, a link or a device' };
}

function tooLarge(): Problem {
  return { kind: 'unreadableFile', reason: 'tooLarge', path: [], detail: '10 MiB' };
}

function faultOf(code: unknown): 'missing' | 'noPermission' | 'ioError' {
  if (code === 'ENOENT' || code === 'ENOTDIR') return 'missing';
  return code === 'EACCES' || code === 'EPERM' ? 'noPermission' : 'ioError';
}

/** Reads at most one byte more than the limit, so that a file which grows meanwhile, or lies about its size, is noticed. */
async function readUpToLimit(path: string): Promise<Buffer | 'notRegular' | 'tooLarge'> {
  // Without O_NONBLOCK, opening a pipe that took the file's place after lstat would wait for ever.
  const handle = await open(path, constants.O_RDONLY | NO_FOLLOW | NO_WAIT);
  try {
    if (!(await handle.stat()).isFile()) return 'notRegular';
    const buffer = Buffer.alloc(OPENED_FILE_LIMIT_BYTES + 1);
    let length = 0;
    for (;;) {
      const { bytesRead } = await handle.read(buffer, length, buffer.length - length, length);
      length += bytesRead;
      if (length > OPENED_FILE_LIMIT_BYTES) return 'tooLarge';
      if (bytesRead === 0) return buffer.subarray(0, length);
    }
  } finally {
    await handle.close();
  }
}

/** Problems: a file that is not there, may not be read, is no regular file (links included), or is over 10 MiB. */
export async function readOpenedFile(path: string): Promise<Result<OpenedFile, Problem>> {
  try {
    const stat = await lstat(path);
    if (!stat.isFile()) return failure(notRegular());
    if (stat.size > OPENED_FILE_LIMIT_BYTES) return failure(tooLarge());
    const read = await readUpToLimit(path);
    if (read === 'notRegular') return failure(notRegular());
    if (read === 'tooLarge') return failure(tooLarge());
    return success({ fileName: basename(path), content: read.toString('base64') });
  } catch (cause) {
    if (!(cause instanceof Error && 'code' in cause)) throw cause;
    return failure({ kind: 'storage', fault: faultOf(cause.code), file: path, detail: cause.message });
  }
}

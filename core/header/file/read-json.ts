/** JSON text into a value, with suspicion: whatever is wrong with it comes back as a problem that says where. */

import { failure, type Result, success } from '../../result.ts';
import type { HeaderProblem } from '../header-problem.ts';
import { jsonProblem } from './look-over-json.ts';

/** A full header of eight primaries is about 20 kB; a file above this is not one. In bytes or, for text, in UTF-16 units. */
export const FILE_SIZE_LIMIT = 10 * 1024 * 1024;

/** What other files than those of headers may hold. */
interface JsonLimits {
  /** In UTF-16 units. */
  readonly sizeLimit: number;
  /** Entries of a list that is not named in a header. */
  readonly longestList: number;
}

/** The value that the text stands for, with or without a byte order mark in front. Never throws. Linear in the text. */
export function readJson(json: string, limits?: JsonLimits): Result<unknown, HeaderProblem> {
  if (json.length > (limits?.sizeLimit ?? FILE_SIZE_LIMIT)) return unreadable('tooLarge', '10 MiB');
  const text = json.charCodeAt(0) === 0xfeff ? json.slice(1) : json;
  if (text.trim() === '') return unreadable('empty', '');
  const problem = jsonProblem(text, limits?.longestList);
  if (problem !== null) return failure(problem);
  try {
    return success(JSON.parse(text));
  } catch {
    return unreadable('notJson', '');
  }
}

function unreadable(reason: 'tooLarge' | 'empty' | 'notJson', detail: string): Result<never, HeaderProblem> {
  return failure<HeaderProblem>({ kind: 'unreadableFile', reason, path: [], detail });
}

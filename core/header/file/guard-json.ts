/** Looks over JSON text before it is parsed: size, depth and repeated keys, which JSON.parse lets through in silence. */

import { failure, type Result, success } from '../../result.ts';
import type { HeaderProblem, ProblemPath } from '../header-problem.ts';

/** A full header of eight primaries is about 20 kB; a file above this is not one. In bytes or, for text, in UTF-16 units. */
export const FILE_SIZE_LIMIT = 10 * 1024 * 1024;

/** The format itself is ten levels deep. */
export const DEPTH_LIMIT = 32;

interface Level {
  /** Keys met so far; null in a list. */
  readonly keys: Set<string> | null;
  /** The key, or the place in the list, of the value being read. */
  step: string | number;
  expectsKey: boolean;
}

const stepsOf = (levels: readonly Level[]): ProblemPath => levels.map((level) => level.step);

/**
 * Passes text that is safe to hand to JSON.parse, without a byte order mark.
 * It does not check the grammar: what is not JSON passes here and is refused by the parser. Linear in the text.
 */
export function guardJson(json: string): Result<string, HeaderProblem> {
  if (json.length > FILE_SIZE_LIMIT) {
    return failure({ kind: 'unreadableFile', reason: 'tooLarge', path: [], detail: '10 MiB' });
  }
  const text = json.charCodeAt(0) === 0xfeff ? json.slice(1) : json;
  if (text.trim() === '') return failure({ kind: 'unreadableFile', reason: 'empty', path: [], detail: '' });
  const problem = firstStructureProblem(text);
  return problem === null ? success(text) : failure(problem);
}

function firstStructureProblem(text: string): HeaderProblem | null {
  const levels: Level[] = [];
  for (let i = 0; i < text.length; i += 1) {
    const level = levels.at(-1);
    switch (text[i]) {
      case '"': {
        const end = endOfString(text, i);
        if (level?.expectsKey && level.keys !== null && !enterKey(level, text.slice(i, end))) {
          return { kind: 'unreadableFile', reason: 'duplicateKey', path: stepsOf(levels), detail: String(level.step) };
        }
        i = end - 1;
        break;
      }
      case '{':
      case '[':
        if (levels.length >= DEPTH_LIMIT) {
          return { kind: 'unreadableFile', reason: 'tooDeep', path: stepsOf(levels), detail: String(DEPTH_LIMIT) };
        }
        levels.push(levelOf(text[i] === '{'));
        break;
      case '}':
      case ']':
        levels.pop();
        break;
      case ',':
        if (level) advance(level);
        break;
    }
  }
  return null;
}

function levelOf(isObject: boolean): Level {
  return isObject ? { keys: new Set(), step: '', expectsKey: true } : { keys: null, step: 0, expectsKey: false };
}

function advance(level: Level): void {
  if (typeof level.step === 'number') level.step += 1;
  else level.expectsKey = true;
}

/** False when the key was there before. Escapes are undone first: "a" and "\u0061" are one key. */
function enterKey(level: Level, literal: string): boolean {
  const key = textOfLiteral(literal);
  level.step = key;
  level.expectsKey = false;
  if (level.keys?.has(key)) return false;
  level.keys?.add(key);
  return true;
}

function textOfLiteral(literal: string): string {
  if (!literal.includes('\\')) return literal.slice(1, -1);
  try {
    return String(JSON.parse(literal));
  } catch {
    // A broken escape: the parser will refuse the file, with the place.
    return literal;
  }
}

/** Offset just past the closing quote of the string that opens at `start`, or the end of the text. */
function endOfString(text: string, start: number): number {
  for (let i = start + 1; i < text.length; i += 1) {
    if (text[i] === '\\') i += 1;
    else if (text[i] === '"') return i + 1;
  }
  return text.length;
}

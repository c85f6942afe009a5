/** Walks through JSON text before it is parsed, for what JSON.parse lets through in silence or does not point at. */

import { type JSONPath, type JSONVisitor, visit } from 'jsonc-parser';
import type { HeaderProblem, ProblemPath } from '../header-problem.ts';
import { OBSTACLES_LIMIT, PIECES_LIMIT, PRIMARIES_LIMIT } from '../schema.ts';

/** The format itself is ten levels deep. */
export const DEPTH_LIMIT = 32;

/**
 * Lists by the names of their fields; any other has no more than the longest. The schema says the same, but only after it has
 * looked at every entry, of which a hostile file may hold millions.
 */
const LIST_LIMITS: ReadonlyMap<string, number> = new Map([
  ['primaries', PRIMARIES_LIMIT],
  ['collectors', PRIMARIES_LIMIT],
  ['inlets', PRIMARIES_LIMIT],
  ['obstacles', OBSTACLES_LIMIT],
]);
const LONGEST_LIST = PIECES_LIMIT;

/** How visit is stopped, which has no other way: everything that is found ends the walk. */
class Found {
  readonly problem: HeaderProblem;

  constructor(problem: HeaderProblem) {
    this.problem = problem;
  }
}

/**
 * The first place where the text is no JSON (RFC 8259), where a field is there twice, where lists or groups nest deeper than
 * `DEPTH_LIMIT` or where a list is longer than any list of a header, or than `longestList`; null when there is none. Linear in the text.
 */
export function jsonProblem(text: string, longestList = LONGEST_LIST): HeaderProblem | null {
  try {
    visit(text, visitorFor(text, longestList), {
      disallowComments: true,
      allowTrailingComma: false,
      allowEmptyContent: false,
    });
    return null;
  } catch (cause) {
    if (cause instanceof Found) return cause.problem;
    throw cause;
  }
}

/** A group or list that is open. */
type Level =
  | { readonly kind: 'group'; readonly keys: Set<string> }
  | { readonly kind: 'list'; readonly limit: number; entries: number };

function visitorFor(text: string, longestList: number): JSONVisitor {
  const levels: Level[] = [];
  const open = (level: Level, path: JSONPath) => {
    if (levels.length >= DEPTH_LIMIT) throw new Found(unreadable('tooDeep', path, String(DEPTH_LIMIT)));
    levels.push(level);
  };
  let pathOfList: () => JSONPath = () => [];
  return {
    onObjectBegin: (_offset, _length, _line, _column, path) => open({ kind: 'group', keys: new Set() }, path()),
    onArrayBegin: (_offset, _length, _line, _column, path) => {
      const limit = LIST_LIMITS.get(String(path().at(-1))) ?? longestList;
      open({ kind: 'list', limit, entries: 1 }, path());
      pathOfList = path;
    },
    onObjectEnd: () => void levels.pop(),
    onArrayEnd: () => void levels.pop(),
    onObjectProperty: (key, _offset, _length, _line, _column, path) => {
      const level = levels.at(-1);
      if (level?.kind !== 'group') return;
      // Escapes are undone by now: "a" and "\u0061" are one key.
      if (level.keys.has(key)) throw new Found(unreadable('duplicateKey', [...path(), key], key));
      level.keys.add(key);
    },
    onSeparator: (sign) => {
      const level = levels.at(-1);
      if (sign !== ',' || level?.kind !== 'list') return;
      level.entries += 1;
      // Inside a list the path ends with the place in it.
      if (level.entries > level.limit) throw new Found(tooMany(pathOfList().slice(0, -1), level.limit));
    },
    onError: (_error, offset, length) => {
      throw new Found(unreadable('notJson', [], placeIn(text, offset, length)));
    },
  };
}

const tooMany = (path: ProblemPath, limit: number): HeaderProblem => ({ kind: 'tooMany', path, limit });

function unreadable(reason: 'tooDeep' | 'duplicateKey' | 'notJson', path: ProblemPath, detail: string): HeaderProblem {
  return { kind: 'unreadableFile', reason, path, detail };
}

/** In the words of the sentence that says where the text stops making sense. */
function placeIn(text: string, offset: number, length: number): string {
  const isCutInText = text[offset] === '"' && offset + length >= text.length;
  if (offset >= text.length || isCutInText) return 'its end';
  const before = text.slice(0, offset);
  return `line ${before.split('\n').length}, column ${offset - before.lastIndexOf('\n')}`;
}

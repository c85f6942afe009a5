/** Finds the place where text stops being JSON (RFC 8259); engines say so only sometimes, and each in its own words. */

/** What may come next at this level. */
type Wanted = 'value' | 'valueOrEnd' | 'key' | 'keyOrEnd' | 'colon' | 'commaOrEnd';

interface Level {
  readonly close: '}' | ']' | 'end of text';
  wanted: Wanted;
}

const WORD = /(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\w.+-])/y;

/** Offset of the first character that JSON does not allow; null when the text is JSON. Linear; for text that was refused. */
export function jsonFault(text: string): number | null {
  const levels: Level[] = [{ close: 'end of text', wanted: 'value' }];
  let at = 0;
  while (at < text.length) {
    if (' \n\r\t'.includes(text.charAt(at))) {
      at += 1;
      continue;
    }
    const next = take(text, at, levels);
    if (next === null) return at;
    at = next;
  }
  const isWhole = levels.length === 1 && levels[0]?.wanted === 'commaOrEnd';
  return isWhole ? null : text.length;
}

/** Takes one token; gives the offset after it, or null when it may not stand there. */
function take(text: string, at: number, levels: Level[]): number | null {
  const level = levels.at(-1);
  const sign = text.charAt(at);
  if (!level) return null;
  if (sign === level.close) {
    if (level.wanted === 'value' || level.wanted === 'key' || level.wanted === 'colon') return null;
    // An empty group or list may end, and so may one with a value just taken; not one after a comma.
    levels.pop();
    return at + 1;
  }
  switch (level.wanted) {
    case 'key':
    case 'keyOrEnd':
      level.wanted = 'colon';
      return sign === '"' ? afterString(text, at) : null;
    case 'colon':
      level.wanted = 'value';
      return sign === ':' ? at + 1 : null;
    case 'commaOrEnd':
      level.wanted = level.close === '}' ? 'key' : 'value';
      return sign === ',' && level.close !== 'end of text' ? at + 1 : null;
    default:
      level.wanted = 'commaOrEnd';
      return afterValue(text, at, levels);
  }
}

function afterValue(text: string, at: number, levels: Level[]): number | null {
  switch (text.charAt(at)) {
    case '{':
      levels.push({ close: '}', wanted: 'keyOrEnd' });
      return at + 1;
    case '[':
      levels.push({ close: ']', wanted: 'valueOrEnd' });
      return at + 1;
    case '"':
      return afterString(text, at);
    default:
      WORD.lastIndex = at;
      return WORD.test(text) ? WORD.lastIndex : null;
  }
}

function afterString(text: string, start: number): number | null {
  for (let at = start + 1; at < text.length; at += 1) {
    if (text[at] === '"') return at + 1;
    if (text.charCodeAt(at) < 0x20) return null;
    if (text[at] !== '\\') continue;
    const escaped = /^(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(text.slice(at + 1, at + 6));
    if (!escaped) return null;
    at += escaped[0].length;
  }
  return null;
}

/** File names that every system takes, made from what the user called a thing. */

import { startWithin } from './names.ts';

/** Below the 255 that file systems allow, so that whoever copies the file may add to its name. */
const NAME_BYTES = 200;
/** Separators, what Windows forbids, controls, and marks that change the direction of text. */
const FORBIDDEN = /[\\/:*?"<>|\p{Cc}\p{Cs}\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;
/** Names of devices on Windows, with or without an ending. */
const DEVICES = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i;

/** `name` made safe, with `ending` (its dot included) behind it; 200 bytes of UTF-8 at most. Never empty, hidden or a path. */
export function safeFileName(name: string, ending: string): string {
  const plain = name
    .normalize('NFC')
    .replaceAll(FORBIDDEN, ' ')
    .replaceAll(/\s+/gu, ' ')
    .replace(/^[. ]+/, '');
  // One byte is left for the mark before a device name.
  const start = startWithin(plain, NAME_BYTES - utf8Bytes(ending) - 1, utf8Bytes).replace(/[. ]+$/, '');
  if (start === '') return `untitled${ending}`;
  return DEVICES.test(start) ? `_${start}${ending}` : `${start}${ending}`;
}

function utf8Bytes(text: string): number {
  let bytes = 0;
  for (const character of text) {
    const point = character.codePointAt(0) ?? 0;
    bytes += point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
  }
  return bytes;
}

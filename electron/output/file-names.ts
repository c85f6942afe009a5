/** File names that every system takes, made from what the user called a thing. */

const NAME_BYTES = 200;
/** Separators, what Windows forbids, controls, and marks that change the direction of text. */
const FORBIDDEN = /[\\/:*?"<>|\p{Cc}\p{Cs}\u200e\u200f\u202a-\u202e\u2066-\u2069]/gu;
/** Names of devices on Windows, with or without an ending. */
const DEVICES = /^(con|prn|aux|nul|com[0-9¹²³]|lpt[0-9¹²³])(\.|$)/i;

/** `name` made safe, with `extension` (its dot included) behind it; 200 bytes at most. Never empty, hidden or a path. */
export function safeFileName(name: string, extension: string): string {
  const plain = name
    .normalize('NFC')
    .replaceAll(FORBIDDEN, ' ')
    .replaceAll(/\s+/gu, ' ')
    .replace(/^[. ]+/, '');
  const cut = cutToBytes(plain, NAME_BYTES - Buffer.byteLength(extension)).replace(/[. ]+$/, '');
  if (cut === '') return `untitled${extension}`;
  return DEVICES.test(cut) ? `_${cut}${extension}` : `${cut}${extension}`;
}

/** Never cuts through a character. */
function cutToBytes(text: string, limit: number): string {
  let bytes = 0;
  let end = 0;
  for (const character of text) {
    bytes += Buffer.byteLength(character);
    // One byte is left for the mark before a device name.
    if (bytes > limit - 1) break;
    end += character.length;
  }
  return text.slice(0, end);
}

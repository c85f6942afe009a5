/** Picture files of a header: they lie beside the document, not in it, so that steps and files of a header stay small. */

/** How many a header has at most. */
export const PICTURES_LIMIT = 12;
/** Longest side of one as it is kept, in pixels; larger ones are made smaller. */
export const PICTURE_SIDE_PX = 1600;
/** Largest file of one as it is kept. */
export const PICTURE_BYTES_LIMIT = 700_000;

export type PictureType = 'image/jpeg' | 'image/png';

/** By its first bytes; null: neither (JPEG: ITU-T T.81, B.1.1.3; PNG: ISO/IEC 15948, 5.2). */
export function pictureTypeOf(bytes: Uint8Array): PictureType | null {
  if (startsWith(bytes, [0xff, 0xd8, 0xff])) return 'image/jpeg';
  return startsWith(bytes, [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]) ? 'image/png' : null;
}

function startsWith(bytes: Uint8Array, start: readonly number[]): boolean {
  return start.every((byte, at) => bytes[at] === byte);
}

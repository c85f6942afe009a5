/** Where an exported file went. */

import type { ResponseOf } from '../bridge/contract.ts';
import type { OutgoingFile } from './outgoing-file.ts';

/** Saved by the host's dialog, called off, or handed over for the page to download. */
export type SavedFile = ResponseOf<'exportHeader'>;

/** Puts the file where the user wants it, or hands it over for the page to download. */
export type SaveFile = (fileName: string, mediaType: string, content: string | Uint8Array) => Promise<SavedFile>;

/** Asks where a file should go that is then written piece by piece; null: called off. Absent where the page takes the pieces. */
export type OpenFile = (fileName: string, mediaType: string) => Promise<{ readonly file: OutgoingFile } | null>;

/** The file itself as the answer: of a host that cannot ask where it should go. */
export function handedOver(fileName: string, mediaType: string, content: string | Uint8Array): SavedFile {
  if (typeof content === 'string') return { kind: 'download', fileName, mediaType, text: content };
  return { kind: 'downloadBytes', fileName, mediaType, base64: Buffer.from(content).toString('base64') };
}

/** The way out for work that the disk does not take: the open file format, made in the page itself. */

import { type Header, writeHeader } from '../../core/index.ts';
import { downloadText } from '../host/files.ts';

/** A name that every file system takes, after the header's own. */
export function fileNameOf(header: Header): string {
  const plain = header.name
    .replace(/[^\p{L}\p{N} _-]/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim();
  return `${plain.slice(0, 80) || 'header'} (not saved).json`;
}

export function exportUnsaved(header: Header): void {
  downloadText({ fileName: fileNameOf(header), mediaType: 'application/json', text: writeHeader(header) });
}

/** The way out for work that the disk does not take: the open file format, made in the page itself. */

import { type Header, safeFileName, writeHeader } from '../../core/index.ts';
import { downloadText } from '../host/files.ts';

export function exportUnsaved(header: Header): void {
  const fileName = safeFileName(header.name, ' (not saved).json');
  downloadText({ fileName, mediaType: 'application/json', text: writeHeader(header) });
}

/** What a file that the user chose holds, read without keeping anything of it. */

import { assertNever, readHeaderBytes, readPartsRows, readStockRows, success } from '../../core/index.ts';
import type { RequestOf } from '../bridge/contract.ts';
import type { Answer } from '../bridge/dispatcher.ts';
import { readCsv } from './csv.ts';

/** A file that cannot be looked into at all is a failure; rows that cannot be read are listed in the preview. */
export function previewFile(request: RequestOf<'previewFile'>, newId: () => string): Answer<'previewFile'> {
  const bytes = Buffer.from(request.content, 'base64');
  if (request.expect === 'header') {
    const header = readHeaderBytes(bytes);
    return header.ok ? success({ kind: 'header', header: header.value }) : header;
  }
  const rows = readCsv(bytes);
  if (!rows.ok) return rows;
  const context = { unit: request.unit, newId };
  switch (request.expect) {
    case 'parts':
      return success({ kind: 'parts', ...readPartsRows(rows.value, context) });
    case 'stock':
      return success({ kind: 'stock', ...readStockRows(rows.value, context) });
    default:
      return assertNever(request.expect);
  }
}

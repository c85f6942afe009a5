/** What a file that the user chose holds, read without keeping anything of it. */

import { assertNever, readHeaderBytes, readPartsRows, readStockRows, success } from '../../core/index.ts';
import type { RequestOf } from '../bridge/contract.ts';
import type { Answer } from '../bridge/dispatcher.ts';
import { readCsv } from './csv.ts';

export interface ChosenFile extends Pick<RequestOf<'previewFile'>, 'expect' | 'unit'> {
  readonly bytes: Uint8Array;
}

/** A file that cannot be looked into at all is a failure; rows that cannot be read are listed in the preview. */
export function previewFile({ bytes, expect, unit }: ChosenFile, newId: () => string): Answer<'previewFile'> {
  if (expect === 'header') {
    const header = readHeaderBytes(bytes);
    return header.ok ? success({ kind: 'header', header: header.value }) : header;
  }
  const rows = readCsv(bytes);
  if (!rows.ok) return rows;
  switch (expect) {
    case 'parts':
      return success({ kind: 'parts', ...readPartsRows(rows.value, { unit, newId }) });
    case 'stock':
      return success({ kind: 'stock', ...readStockRows(rows.value, { unit, newId }) });
    default:
      return assertNever(expect);
  }
}

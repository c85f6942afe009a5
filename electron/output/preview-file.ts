/** What a file that the user chose holds, read without keeping anything of it. */

import {
  assertNever,
  readCommaColumns,
  readHeaderBytes,
  readPartsRows,
  readStockRows,
  success,
} from '../../core/index.ts';
import type { RequestOf, ResponseOf } from '../bridge/contract.ts';
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
  const typed = readCsv(bytes);
  if (!typed.ok) return typed;
  // A file says nothing of the language that it was written in, so its columns have to show it.
  const { rows, numbers } = readCommaColumns(typed.value, { holdsWords: wordColumns(typed.value), isDecimal: false });
  const commas = numbers.slice(0, COMMAS_TOLD);
  switch (expect) {
    case 'parts':
      return success({ kind: 'parts', ...readPartsRows(rows, { unit, newId }), commas });
    case 'stock':
      return success(stockPreview(rows, { unit, newId }, commas));
    default:
      return assertNever(expect);
  }
}

/** What was read by a rule is told once for each way of writing it. */
function stockPreview(
  rows: readonly (readonly string[])[],
  options: Parameters<typeof readStockRows>[1],
  commas: string[],
): Extract<ResponseOf<'previewFile'>, { kind: 'stock' }> {
  const { items, refused, said } = readStockRows(rows, options);
  const told = [...new Map(said.map((reading) => [reading.text, reading])).values()].slice(0, READINGS_TOLD);
  return { kind: 'stock', items: [...items], refused: [...refused], commas, said: told };
}

const READINGS_TOLD = 5;

/** So many show how the rest was read. */
const COMMAS_TOLD = 3;

/** Headings of columns in which a comma is a comma, in parts lists and stock lists. */
const WORD_HEADINGS = new Set(['primary', 'kind', 'state', 'locked', 'note', 'material']);

function wordColumns(rows: readonly (readonly string[])[]): (column: number) => boolean {
  const headings = rows.find((row) => row.some((cell) => cell.trim() !== '')) ?? [];
  return (column) => WORD_HEADINGS.has((headings[column] ?? '').trim().toLowerCase());
}

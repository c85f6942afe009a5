/**
 * Rows of cells as text for spreadsheets: a CSV file, or cells apart by tabs for the clipboard. In both, text that a
 * spreadsheet would run as a formula gets an apostrophe in front; `readCsvRows` and `readPastedRows` take it away again
 * and give back exactly the rows that were written.
 */

import Papa from 'papaparse';
import { FORMULA } from './formulas.ts';

type Rows = readonly (readonly string[])[];

/** By RFC 4180 with CRLF line ends; a byte order mark in front tells spreadsheets that the file is UTF-8. */
export function csvText(rows: Rows, { hasMark = true }: { readonly hasMark?: boolean } = {}): string {
  return `${hasMark ? '\ufeff' : ''}${written(rows, { delimiter: ',', newline: '\r\n' })}`;
}

/** What spreadsheets put on the clipboard, and take from it. */
export function clipboardText(rows: Rows): string {
  return written(rows, { delimiter: '\t', newline: '\n' });
}

function written(rows: Rows, form: { readonly delimiter: string; readonly newline: '\n' | '\r\n' }): string {
  if (rows.length === 0) return '';
  return `${Papa.unparse(rows, { ...form, escapeFormulae: FORMULA })}${form.newline}`;
}

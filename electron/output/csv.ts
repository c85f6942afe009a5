/** CSV text from rows and rows from CSV text, by RFC 4180, safe to open in a spreadsheet. */

import Papa from 'papaparse';
import { failure, type HeaderProblem, type Result, success } from '../../core/index.ts';

const BYTES_LIMIT = 5 * 1024 * 1024;
const ROWS_LIMIT = 10_000;
const COLUMNS_LIMIT = 64;

/**
 * What a spreadsheet would take for a formula: text that begins, after spaces and marks of ours, with one of these signs
 * or their full-width forms, or with a tab or line end (OWASP, "CSV Injection"; CVE-2021-41270 for tab and return).
 */
const FORMULA = /^'*(?:[\t\r\n]|\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/u;
const PLAIN_NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)$/;

/**
 * Rows as CSV with CRLF line ends and a byte order mark, which spreadsheets need to read UTF-8. A cell that could be
 * taken for a formula gets an apostrophe in front, which `readCsv` takes away again; numbers stay numbers.
 */
export function writeCsv(rows: readonly (readonly string[])[]): string {
  return `\ufeff${rows.map((row) => `${row.map(writeCell).join(',')}\r\n`).join('')}`;
}

function writeCell(text: string): string {
  const safe = FORMULA.test(text) && !PLAIN_NUMBER.test(text) ? `'${text}` : text;
  return safe !== text || /[",;\t\r\n]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const readCell = (text: string) => (text.startsWith("'") && FORMULA.test(text) ? text.slice(1) : text);

/**
 * The rows of a CSV file: UTF-8, at most 5 MiB, 10,000 rows below the headings and 64 columns; separated by comma,
 * semicolon or tab, whichever the file uses. Empty rows are kept, so that places can be told as a spreadsheet does.
 */
export function readCsv(bytes: Uint8Array): Result<readonly (readonly string[])[], HeaderProblem> {
  const text = textOf(bytes);
  if (!text.ok) return text;
  // Two more than allowed: the headings, and one to see that there are too many.
  const parsed = Papa.parse<string[]>(text.value, { delimitersToGuess: [',', ';', '\t'], preview: ROWS_LIMIT + 2 });
  const broken = parsed.errors.find((error) => error.type === 'Quotes');
  if (broken) {
    const line = (broken.row ?? 0) + 1;
    const detail = `a quote in row ${line} is not closed`;
    return failure({ kind: 'unreadableFile', reason: 'notCsv', path: ['rows', line], detail });
  }
  if (parsed.data.length > ROWS_LIMIT + 1) return failure({ kind: 'tooMany', path: ['rows'], limit: ROWS_LIMIT });
  const wide = parsed.data.findIndex((row) => row.length > COLUMNS_LIMIT);
  if (wide >= 0) return failure({ kind: 'tooMany', path: ['rows', wide + 1, 'columns'], limit: COLUMNS_LIMIT });
  return success(parsed.data.map((row) => row.map(readCell)));
}

function textOf(bytes: Uint8Array): Result<string, HeaderProblem> {
  const refuse = (reason: 'tooLarge' | 'notUtf8' | 'empty', detail: string) =>
    failure<HeaderProblem>({ kind: 'unreadableFile', reason, path: [], detail });
  if (bytes.length > BYTES_LIMIT) return refuse('tooLarge', '5 MiB');
  try {
    // A byte order mark is taken away by the decoder.
    const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return text.trim() === '' ? refuse('empty', '') : success(text);
  } catch {
    return refuse('notUtf8', 'another encoding');
  }
}

/** The rows of a CSV file that somebody chose, within limits that no honest list comes near. */

import { failure, type HeaderProblem, type Result, readCsvRows, success } from '../../core/index.ts';

const BYTES_LIMIT = 5 * 1024 * 1024;
const ROWS_LIMIT = 25_000;
/** With the headings. */
const MOST_ROWS = ROWS_LIMIT + 1;
const COLUMNS_LIMIT = 64;

/**
 * The rows of a CSV file: UTF-8, at most 5 MiB, 25,000 rows below the headings and 64 columns; separated by comma,
 * semicolon or tab, whichever the file uses. Empty rows are kept, so that places can be told as a spreadsheet does.
 */
export function readCsv(bytes: Uint8Array): Result<readonly (readonly string[])[], HeaderProblem> {
  const text = textOf(bytes);
  if (!text.ok) return text;
  // One more than allowed, to see that there are too many.
  const { rows, openQuote } = readCsvRows(text.value, { mostRows: MOST_ROWS + 1 });
  if (openQuote !== null) {
    const detail = `a quote in row ${openQuote} is not closed`;
    return failure({ kind: 'unreadableFile', reason: 'notCsv', path: ['rows', openQuote], detail });
  }
  if (rows.length > MOST_ROWS) return failure({ kind: 'tooMany', path: ['rows'], limit: ROWS_LIMIT });
  const wide = rows.findIndex((row) => row.length > COLUMNS_LIMIT);
  if (wide >= 0) return failure({ kind: 'tooMany', path: ['rows', wide + 1, 'columns'], limit: COLUMNS_LIMIT });
  return success(rows);
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

/** The rows of cells in a CSV file or in text from the clipboard. Every list that the program reads comes through here. */

import Papa from 'papaparse';
import { withoutMark } from './formulas.ts';
import { lookOverQuotes } from './quotes.ts';

export type Rows = readonly (readonly string[])[];

/**
 * The rows of a file whose cells are apart by comma, semicolon or tab, whichever its first line has most of. Empty rows in
 * between are kept, so that a row can be named by the number that the spreadsheet shows; those at the end are not.
 * At most `mostRows` rows: a caller who allows fewer sees that there are too many.
 *
 * @returns `openQuote`: the number, from 1, of the row in which a quoted cell does not end as it should; null if all do
 */
export function readCsvRows(
  text: string,
  { mostRows }: { readonly mostRows: number },
): { readonly rows: Rows; readonly openQuote: number | null } {
  return split(withoutEnd(text), { delimiter: separatorOf(text), preview: mostRows });
}

/** As `readCsvRows`, for lists of numbers, in which a quote that does not fit is a character like any other. */
export function readNumberRows(text: string, { mostRows }: { readonly mostRows: number }): Rows {
  return splitLoosely(withoutEnd(text), { delimiter: separatorOf(text), preview: mostRows });
}

/**
 * The rows of text from the clipboard, cells apart by tabs. Spreadsheets quote a cell there only when they must, and people
 * write inches as `2 3/4"`: when the quotes do not fit together, they are taken for inch marks.
 */
export function readPastedRows(text: string, { mostRows }: { readonly mostRows: number }): Rows {
  return splitLoosely(withoutEnd(text), { delimiter: '\t', preview: mostRows });
}

interface Form {
  readonly delimiter: string;
  readonly preview: number;
}

function split(text: string, form: Form): { readonly rows: Rows; readonly openQuote: number | null } {
  if (!text.includes('"')) return { rows: splitBare(text, form), openQuote: null };
  const looked = lookOverQuotes(text, form.delimiter);
  if (looked.openQuote !== null) return { rows: [], openQuote: looked.openQuote };
  return { rows: unmarked(Papa.parse(looked.text, { ...form, newline: '\n' }).data, looked.text), openQuote: null };
}

function splitLoosely(text: string, form: Form): Rows {
  const { rows, openQuote } = split(text, form);
  return openQuote === null ? rows : splitBare(text, form);
}

function splitBare(text: string, form: Form): Rows {
  const plain = text.replace(/\r\n?/g, '\n');
  return unmarked(Papa.parse(plain, { ...form, newline: '\n', fastMode: true }).data, plain);
}

/** Of all rows of a text; most have no mark, and are left as they are. */
function unmarked(rows: Rows, text: string): Rows {
  return text.includes("'") ? rows.map((row) => row.map(withoutMark)) : rows;
}

/** Without the byte order mark in front, and line ends and spaces behind: a file that ends its last row has no row after it. */
function withoutEnd(text: string): string {
  let end = text.length;
  while (end > 0 && '\r\n '.includes(text.charAt(end - 1))) end -= 1;
  return text.slice(text.startsWith('\ufeff') ? 1 : 0, end);
}

/** Counted in the first line that holds anything: headings hold no numbers, whose commas could mislead. */
function separatorOf(text: string): string {
  const heading = /^.*[^\s,;\ufeff].*$/m.exec(text)?.[0] ?? '';
  const counts = [',', ';', '\t'].map((separator) => ({ separator, count: heading.split(separator).length }));
  return counts.reduce((most, one) => (one.count > most.count ? one : most)).separator;
}

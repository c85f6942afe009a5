/**
 * Looks over the quotes of a text before it is split into cells. Not left to the parser for two reasons: at every quote that
 * does not fit it looks for the end of the line anew, which for a hostile megabyte takes minutes; and it knows one line end
 * a text, while files that two programs have written hold two.
 */

export interface LookedOver {
  /** The text with `\n` for every line end between cells; those inside quoted cells are as they were. */
  readonly text: string;
  /** The number, from 1, of the row whose quoted cell is not closed at its end; null if there is none. */
  readonly openQuote: number | null;
}

/** Linear in the text. `separator` is the one character that stands between cells. */
export function lookOverQuotes(text: string, separator: string): LookedOver {
  const cellEnd = new RegExp(`[${separator}\r\n]`, 'g');
  const parts: string[] = [];
  let row = 1;
  /** What is before here is in `parts` already. */
  let from = 0;
  for (let at = 0; at < text.length; ) {
    const closed = text[at] === '"' ? afterClosingQuote(text, at) : at;
    if (closed === null) return { text, openQuote: row };
    cellEnd.lastIndex = closed;
    const end = cellEnd.exec(text) ?? { index: text.length, 0: '' };
    // Only spaces may stand between a closing quote and the end of its cell.
    if (closed > at && /[^ ]/.test(text.slice(closed, end.index))) return { text, openQuote: row };
    at = end.index + 1;
    if (end[0] !== separator) row += 1;
    if (end[0] !== '\r') continue;
    parts.push(text.slice(from, end.index), '\n');
    if (text[at] === '\n') at += 1;
    from = at;
  }
  return { text: parts.join('') + text.slice(from), openQuote: null };
}

/** The place just past the quote that closes the cell which opens at `opening`; null if none does. Two quotes are one of the text. */
function afterClosingQuote(text: string, opening: number): number | null {
  let at = text.indexOf('"', opening + 1);
  while (at >= 0 && text[at + 1] === '"') at = text.indexOf('"', at + 2);
  return at < 0 ? null : at + 1;
}

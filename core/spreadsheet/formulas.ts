/** What a spreadsheet would run when a cell is opened or pasted, and how that is kept from it. */

/**
 * Text that a spreadsheet would take for a formula: it begins, after spaces and apostrophes of ours, with one of the signs
 * = + - @ or their full-width forms, or with a tab or line end (OWASP, "CSV Injection"; CVE-2021-41270 for tab and return).
 * A plain number such as -45 or 1e-7 is none: it must stay a number, and there is nothing in it to run.
 */
export const FORMULA =
  /^(?![+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?$)'*(?:[\t\r\n]|\s*[=+\-@\uff1d\uff0b\uff0d\uff20])/iu;

/** The text of a cell without the apostrophe that was put before a formula; one before anything else is the text's own. */
export function withoutMark(cell: string): string {
  return cell.startsWith("'") && FORMULA.test(cell) ? cell.slice(1) : cell;
}

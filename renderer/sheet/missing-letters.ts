/** What a preview says of letters that cannot be printed. */

/** As the pages have it in place of a letter. */
const SIGN = '\ufffd';
const MOST_NAMED = 20;

/** @param missing at least one letter */
export function missingLettersWords(missing: readonly string[]): string {
  if (missing.length === 1) return `This letter cannot be printed, and ${SIGN} stands in its place: ${missing[0]}`;
  const named = missing.slice(0, MOST_NAMED).join(' ');
  const more = missing.length - MOST_NAMED;
  const rest = more > 0 ? ` and ${more} more` : '';
  return `These letters cannot be printed, and ${SIGN} stands in place of each: ${named}${rest}`;
}

/** Numbers with a decimal comma: read as such only where the language or the rest of a column says so. */

/** Digits, one comma, digits; not a part of a longer number such as 1,234,567 or 1.234,5. */
const COMMA_NUMBER = /(?<![\d.,])(\d*),(\d+)(?![\d.,])/g;

export interface CommasRead {
  /** The text with points in place of decimal commas. */
  readonly text: string;
  /** The numbers that had one, as typed. */
  readonly numbers: readonly string[];
}

/**
 * The text with every decimal comma as a point: `b22,5 r2,5` becomes `b22.5 r2.5`. Numbers with more than one comma, or with
 * a comma and a point, stay as they are and are refused by whoever reads them. Linear in the text.
 */
export function readDecimalCommas(text: string): CommasRead {
  const numbers: string[] = [];
  const read = text.replace(COMMA_NUMBER, (number, whole: string, places: string) => {
    numbers.push(number);
    return `${whole}.${places}`;
  });
  return { text: read, numbers };
}

/**
 * Whether the texts of one column show that their commas are decimal: one of them has other than three digits after its only
 * comma, so that it cannot stand between thousands, and none has a point or several commas in a number. Linear.
 */
export function hasDecimalCommas(column: readonly string[]): boolean {
  if (column.some((text) => /\d\.\d|\d,\d+,\d/.test(text))) return false;
  return column.some((text) => [...text.matchAll(COMMA_NUMBER)].some(([, , places = '']) => places.length !== 3));
}

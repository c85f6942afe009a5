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
function hasDecimalCommas(column: readonly string[]): boolean {
  if (column.some((text) => /\d\.\d|\d,\d+,\d/.test(text))) return false;
  return column.some((text) => [...text.matchAll(COMMA_NUMBER)].some(([, , places = '']) => places.length !== 3));
}

export interface CommaColumns {
  /** The rows with points in place of decimal commas. */
  readonly rows: readonly (readonly string[])[];
  /** The numbers that had one, as they stood. */
  readonly numbers: readonly string[];
}

/** More columns than any list has; bounds the work on a hostile file. */
const COLUMNS_LOOKED_AT = 64;

/**
 * The rows of a table with decimal commas read in the columns that show that theirs are decimal, or in all.
 * @param holdsWords whether a column, from 0, holds names or notes, in which a comma is a comma
 * @param isDecimal whether the language writes decimal commas, so that no column has to show it
 */
export function readCommaColumns(
  rows: readonly (readonly string[])[],
  { holdsWords, isDecimal }: { readonly holdsWords: (column: number) => boolean; readonly isDecimal: boolean },
): CommaColumns {
  const width = rows.reduce((most, { length }) => Math.max(most, Math.min(length, COLUMNS_LOOKED_AT)), 0);
  const decimal = Array.from({ length: width }, (_none, column) => {
    if (holdsWords(column)) return false;
    const figures = rows.flatMap((row) => row[column] ?? []).filter(holdsFigures);
    return isDecimal || hasDecimalCommas(figures);
  });
  if (!decimal.includes(true)) return { rows, numbers: [] };
  const numbers: string[] = [];
  const read = rows.map((row) =>
    row.map((cell, column) => {
      if (decimal[column] !== true || !cell.includes(',') || !holdsFigures(cell)) return cell;
      const commas = readDecimalCommas(cell);
      numbers.push(...commas.numbers);
      return commas.text;
    }),
  );
  return { rows: read, numbers };
}

/** Whether a cell holds figures as the entry line takes them, and no words. */
function holdsFigures(cell: string): boolean {
  return /\d/.test(cell) && !/\p{L}/u.test(cell.replaceAll(/mm|in|deg|[sbprx]/gi, ''));
}

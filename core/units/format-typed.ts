/** Writes stored lengths and angles as text that reads back to exactly the same value, for editing and for files. */

import { mixedText } from './format-length.ts';
import type { Length, LengthUnit } from './length.ts';

/** Finest fraction written; anything finer is written as a decimal. */
const FINEST_PER_INCH = 64;

/**
 * The length in plain characters, so that `parseSignedLength` gives back the same value and unit.
 *
 * Inches that are a whole number of 64ths are written as a fraction (`2 3/4 in`); all else as the shortest decimal
 * that reads back the same (`0.1 mm`). Exact for zero and for 1e-40 to 1e6 of either sign; smaller would need more
 * characters than a length may have.
 *
 * @param bareUnit the unit that the reader takes a bare number in: that unit is then left out
 */
export function formatTyped(length: Length, bareUnit?: LengthUnit): string {
  const { value, unit } = length;
  const parts = Math.abs(value) * FINEST_PER_INCH;
  const text = unit === 'in' && Number.isSafeInteger(parts) ? signed(value, parts) : plainDecimal(value);
  return unit === bareUnit ? text : `${text} ${unit}`;
}

/** As `formatTyped`, with the inch mark in place of the word: `2 3/4"`. For screens and paper; files keep the word, for a mark is a quote to them. */
export function typedText(length: Length, bareUnit?: LengthUnit): string {
  const text = formatTyped(length, bareUnit);
  return length.unit === 'in' && length.unit !== bareUnit ? text.replace(/ in$/, '"') : text;
}

function signed(value: number, parts: number): string {
  const text = mixedText(parts, FINEST_PER_INCH, ' ');
  return value < 0 ? `-${text}` : text;
}

/** Degrees as the shortest decimal that `parseAngle` reads back the same; range as `formatTyped`. */
export function formatTypedAngle(angleDeg: number): string {
  return plainDecimal(angleDeg);
}

/** The shortest digits that identify the double, without an exponent. */
function plainDecimal(value: number): string {
  const text = String(Math.abs(value));
  const sign = value < 0 ? '-' : '';
  const [mantissa = '', exponent] = text.split('e');
  if (exponent === undefined) return sign + text;
  const [whole = '', places = ''] = mantissa.split('.');
  const digits = whole + places;
  const point = whole.length + Number(exponent);
  if (point <= 0) return `${sign}0.${'0'.repeat(-point)}${digits}`;
  // Exponents that JavaScript writes out are above 20, past all digits of a double.
  return sign + digits.padEnd(point, '0');
}

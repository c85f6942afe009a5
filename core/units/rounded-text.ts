/** Rounding for display: half away from zero, written with a true minus sign. */

/** U+2212, as wide as a plus, so that signed figures line up. */
export const MINUS = '\u2212';
/** U+2009, between a whole number and its fraction. */
export const THIN_SPACE = '\u2009';
/** Shown for what is not a finite number. */
export const NO_FIGURE = '\u2014';

/**
 * How far below a half still counts as a half, in units of the last place shown. Conversion from millimetres leaves
 * errors of about 1e-13 of a length, and without this 2 1/32 in would be shown as 2 or 2 1/16 by their chance.
 */
const HALF_SLACK = 1e-9;

/** The whole number nearest to a value of zero or more; halves go up. */
export function roundHalfUp(value: number): number {
  return Math.floor(value + 0.5 + HALF_SLACK);
}

/**
 * A decimal with exactly so many places, halves away from zero.
 * @param places whole number, 0 to 6
 * @returns digits with a point; no minus if all digits shown are zero; a dash if not finite
 */
export function decimalText(value: number, places: number): string {
  if (!Number.isFinite(value)) return NO_FIGURE;
  const scale = 10 ** places;
  const units = roundHalfUp(Math.abs(value) * scale);
  // Beyond 2^53 the scaled value has no places left to round.
  const digits = units > Number.MAX_SAFE_INTEGER ? Math.abs(value).toFixed(places) : placed(units, places);
  return units === 0 || value > 0 ? digits : MINUS + digits;
}

function placed(units: number, places: number): string {
  if (places === 0) return String(units);
  const digits = String(units).padStart(places + 1, '0');
  return `${digits.slice(0, -places)}.${digits.slice(-places)}`;
}

/** Text of a signed figure without its sign. */
export function withoutMinus(text: string): string {
  return text.startsWith(MINUS) ? text.slice(MINUS.length) : text;
}

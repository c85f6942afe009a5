/** Shows lengths in the header's display unit; only what is shown is rounded, never what is stored. */

import { assertNever } from '../result.ts';
import { MM_PER_INCH } from './length.ts';
import { type LengthStyle, unitOf } from './length-style.ts';
import { decimalText, MINUS, NO_FIGURE, roundHalfUp, THIN_SPACE, withoutMinus } from './rounded-text.ts';

/**
 * A length with its unit: `34 9/16"` (thin space after the whole), `34.563"`, `70.0 mm`. Inches have their mark and not
 * their word, which would run into the words about it: 3/16 in in band.
 * @param mm millimetres, of either sign; a dash comes back for what is not finite
 */
export function formatLength(mm: number, style: LengthStyle): string {
  return Number.isFinite(mm) ? withUnit(formatLengthBare(mm, style), style) : NO_FIGURE;
}

/** A figure of this style with its unit: the inch mark right behind it, other units a space away. */
export function withUnit(figure: string, style: LengthStyle): string {
  const unit = unitOf(style);
  return `${figure}${unit === 'in' ? '"' : ` ${unit}`}`;
}

/**
 * A length without its unit, rounded to the style's last place, halves away from zero.
 * Fractions are reduced, carry into the whole (15 63.5/64 is 16), and never use feet. What rounds to zero has no sign.
 */
export function formatLengthBare(mm: number, style: LengthStyle): string {
  if (!Number.isFinite(mm)) return NO_FIGURE;
  switch (style.kind) {
    case 'fraction':
      return fractionText(mm / MM_PER_INCH, style.per);
    case 'decimalInch':
      return decimalText(mm / MM_PER_INCH, style.places);
    case 'mm':
      return decimalText(mm, style.places);
    default:
      return assertNever(style);
  }
}

/** A deviation with its sign and without its unit: `+1/16`, `−2.5`, and `0` or `0.0` unsigned when it rounds to nothing. */
export function formatDeviation(mm: number, style: LengthStyle): string {
  const text = formatLengthBare(mm, style);
  return mm > 0 && /[1-9]/.test(text) ? `+${text}` : text;
}

/**
 * Whether a sum holds among the figures as they are shown: each is rounded on its own, so 31 15/16 + 1/4 may stand beside 32 1/4.
 * @param partsMm what is added, of either sign, in mm
 */
export function addsUpAsShown(partsMm: readonly number[], sumMm: number, style: LengthStyle): boolean {
  const shown = (mm: number) => Math.sign(mm) * roundHalfUp(Math.abs(mm) / finenessMm(style));
  return partsMm.reduce((sum, mm) => sum + shown(mm), 0) === shown(sumMm);
}

/** One of the last place shown, in mm: 1/16 in, 0.001 in, 0.1 mm. */
export function finenessMm(style: LengthStyle): number {
  switch (style.kind) {
    case 'fraction':
      return MM_PER_INCH / style.per;
    case 'decimalInch':
      return MM_PER_INCH / 10 ** style.places;
    case 'mm':
      return 1 / 10 ** style.places;
    default:
      return assertNever(style);
  }
}

/** Whether a length, of either sign, is shown as nothing in this style. */
export function isShownAsZero(mm: number, style: LengthStyle): boolean {
  return formatLengthBare(Math.abs(mm), style) === formatLengthBare(0, style);
}

/** Feet and inches for those who ask for them: `1' 2 1/2"`, `−3/4"`, `2' 0"`. */
export function formatFeetInches(mm: number, per: 8 | 16 | 32 | 64): string {
  if (!Number.isFinite(mm)) return NO_FIGURE;
  const parts = roundHalfUp((Math.abs(mm) / MM_PER_INCH) * per);
  const feet = Math.floor(parts / (12 * per));
  const inches = withoutMinus(fractionText((parts - feet * 12 * per) / per, per));
  const text = feet === 0 ? `${inches}"` : `${feet}' ${inches}"`;
  return mm < 0 && parts > 0 ? MINUS + text : text;
}

function fractionText(inches: number, per: number): string {
  const parts = roundHalfUp(Math.abs(inches) * per);
  const text = mixedText(parts, per, THIN_SPACE);
  return inches < 0 && parts > 0 ? MINUS + text : text;
}

/**
 * So many parts of an inch as a whole and a reduced fraction: 44 of 16 is `2 3/4`.
 * @param parts whole number, zero or more
 * @param per a power of two
 */
export function mixedText(parts: number, per: number, space: string): string {
  const whole = Math.floor(parts / per);
  let numerator = parts - whole * per;
  if (numerator === 0) return String(whole);
  let denominator = per;
  while (numerator % 2 === 0) {
    numerator /= 2;
    denominator /= 2;
  }
  const fraction = `${numerator}/${denominator}`;
  return whole === 0 ? fraction : `${whole}${space}${fraction}`;
}

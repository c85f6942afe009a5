/** Shows angles in degrees, as finely as a bench can use. */

import { decimalText, MINUS, NO_FIGURE } from './rounded-text.ts';

/** Places shown at most; a hundredth of a degree is 0.02 mm on the outside of a 3 in CLR bend. */
const ANGLE_PLACES = 2;

/** Degrees with the degree mark: `90°`, `22.5°`, `−45°`. Rounded to 0.01, halves away from zero, no trailing zeros. */
export function formatAngle(angleDeg: number): string {
  return Number.isFinite(angleDeg) ? `${formatAngleBare(angleDeg)}°` : NO_FIGURE;
}

/** Degrees without the mark. */
export function formatAngleBare(angleDeg: number): string {
  const text = decimalText(angleDeg, ANGLE_PLACES);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}

/** Degrees with their sign: `+5°`, `−13.76°`; what rounds to nothing is `+0°`. */
export function formatSignedAngle(angleDeg: number): string {
  const text = formatAngle(angleDeg);
  return text.startsWith(MINUS) || text === NO_FIGURE ? text : `+${text}`;
}

/** A reading of a finished tube against its pieces, in words. */

import type { MeasureKind } from '../header/measured.ts';
import { signedLength } from '../length/describe-match.ts';
import { formatLength, isShownAsZero } from '../units/format-length.ts';
import type { LengthStyle } from '../units/length-style.ts';
import type { MeasuredLength } from './as-built.ts';

export const METHOD_WORDS: Readonly<Record<MeasureKind, string>> = {
  outsideTape: 'Tape along the outside',
  centreline: 'String or wire down the middle',
  filling: 'Filled with water',
};

/** `agrees, +1/16"`, `2 3/8" longer`: how the tube is to its pieces. */
export function readingVerdict({ verdict, differenceMm }: MeasuredLength, style: LengthStyle): string {
  if (verdict !== 'agrees') return `${formatLength(Math.abs(differenceMm), style)} ${verdict} than its pieces`;
  return isShownAsZero(differenceMm, style) ? 'agrees' : `agrees, ${signedLength(differenceMm, style)}`;
}

/** `Measured 39 1/4" ±1/8"; its pieces come to 39 3/16" ±1/4" this way.` */
export function readingSentence(length: MeasuredLength, style: LengthStyle): string {
  const { measuredMm, measuredWithinMm, computedMm, computedWithinMm } = length;
  const measured = `${formatLength(measuredMm, style)} ±${formatLength(measuredWithinMm, style)}`;
  return `Measured ${measured}; its pieces come to ${formatLength(computedMm, style)} ±${formatLength(computedWithinMm, style)} this way.`;
}

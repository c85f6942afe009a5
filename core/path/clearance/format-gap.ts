/** Shows the gap between the outsides of two bodies. */

import { formatLength } from '../../units/format-length.ts';
import type { LengthStyle } from '../../units/length-style.ts';

/** `3/16"`, or `overlaps 1/8"` for a gap below zero, where the two run into each other. */
export function formatGap(gapMm: number, style: LengthStyle): string {
  const text = formatLength(Math.abs(gapMm), style);
  return gapMm < 0 ? `overlaps ${text}` : text;
}

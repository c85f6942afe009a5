/** How an end misses its inlet, in words that a person can act on. */

import { roundedTo } from '../../units/angle.ts';
import { formatAngle } from '../../units/format-angle.ts';
import { formatLength, isShownAsZero } from '../../units/format-length.ts';
import type { LengthStyle } from '../../units/length-style.ts';
import type { Closure } from './closure.ts';

/** `ends 3/16" short of the inlet and 1/8" to the side, 0.4° off`. */
export function closureWords(closure: Closure, style: LengthStyle): string {
  const { alongMm, asideMm, tiltDeg } = closure;
  const along = isShownAsZero(alongMm, style)
    ? null
    : `${formatLength(Math.abs(alongMm), style)} ${alongMm > 0 ? 'short of the inlet' : 'deep in the inlet'}`;
  const aside = isShownAsZero(asideMm, style) ? null : `${formatLength(asideMm, style)} to the side`;
  const places = [along, aside].filter((words) => words !== null);
  const place = places.length === 0 ? 'in the inlet' : places.join(' and ');
  const tilt = roundedTo(tiltDeg, 1);
  return `ends ${place}, ${tilt === 0 ? 'square' : `${formatAngle(tilt)} off`}`;
}

/** "Closed", or `Closed: 3/32" deep, within slip`: for an end that is within gap, tilt and slip. */
export function closedWords({ alongMm }: Closure, style: LengthStyle): string {
  if (isShownAsZero(alongMm, style)) return 'Closed';
  return `Closed: ${formatLength(Math.abs(alongMm), style)} ${alongMm > 0 ? 'short' : 'deep'}, within slip`;
}

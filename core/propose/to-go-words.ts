/** Where the inlet lies from the end of a primary that is being built, in words. */

import { roundedTo } from '../units/angle.ts';
import { formatAngle } from '../units/format-angle.ts';
import { formatLength, isShownAsZero } from '../units/format-length.ts';
import type { LengthStyle } from '../units/length-style.ts';
import type { ToGo } from './finish-primary.ts';

/** `Inlet: 12 1/2" ahead, 9 1/4" aside at clocking 135°, tilt 45°`; `Inlet: 3 1/2" ahead, in line, square`. */
export function toGoWords({ aheadMm, asideMm, sideDeg, tiltDeg }: ToGo, style: LengthStyle): string {
  const way = aheadMm < 0 ? 'behind' : 'ahead';
  const ahead = isShownAsZero(aheadMm, style) ? [] : [`${formatLength(Math.abs(aheadMm), style)} ${way}`];
  const side = sideDeg === null ? '' : ` at clocking ${formatAngle(Math.round(sideDeg))}`;
  const aside = isShownAsZero(asideMm, style) ? 'in line' : `${formatLength(asideMm, style)} aside${side}`;
  const tilt = roundedTo(tiltDeg, 1);
  return `Inlet: ${[...ahead, aside, tilt === 0 ? 'square' : `tilt ${formatAngle(tilt)}`].join(', ')}`;
}

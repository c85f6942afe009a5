/** Going between inches and millimetres in one step. */

import type { LengthStyle } from '../../../core/index.ts';

const USUAL_INCHES: LengthStyle = { kind: 'fraction', per: 16 };
const USUAL_MM: LengthStyle = { kind: 'mm', places: 1 };

/** Inches for millimetres and the other way round, at the usual fineness. */
export function otherUnit(style: LengthStyle): LengthStyle {
  return style.kind === 'mm' ? USUAL_INCHES : USUAL_MM;
}

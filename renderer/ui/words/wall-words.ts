/** The wall of a tube in words. */

import { formatLength, type LengthStyle, unitOf } from '../../../core/index.ts';

/** Finer than lengths are shown: a sixteenth of an inch is as much as the whole wall. */
const WALL_STYLES = { in: { kind: 'decimalInch', places: 3 }, mm: { kind: 'mm', places: 2 } } as const;

export function wallText(wallMm: number, style: LengthStyle): string {
  return formatLength(wallMm, WALL_STYLES[unitOf(style)]);
}

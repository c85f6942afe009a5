/** Arcs, chords, heights and setbacks of a bend. */

import { radiansOf } from '../units/angle.ts';

/** What makes a bend; CLR above zero, angle above 0 to 360 degrees. */
export interface BendShapeMm {
  readonly clrMm: number;
  readonly angleDeg: number;
}

/** Centreline length of a bend, mm: `CLR * angle`. */
export function centrelineArcMm(clrMm: number, angleDeg: number): number {
  return clrMm * radiansOf(angleDeg);
}

/** Length along the outside of a bend, mm: `(CLR + OD/2) * angle`. */
export function outsideArcMm(clrMm: number, odMm: number, angleDeg: number): number {
  return centrelineArcMm(clrMm + odMm / 2, angleDeg);
}

/** Length along the inside of a bend, mm: `(CLR - OD/2) * angle`; zero or below where the tube meets its own centre. */
export function insideArcMm(clrMm: number, odMm: number, angleDeg: number): number {
  return centrelineArcMm(clrMm - odMm / 2, angleDeg);
}

/** Straight distance between the two ends of a bend's centreline, mm: `2 CLR sin(angle/2)` (Machinery's Handbook, segments). */
export function chordMm({ clrMm, angleDeg }: BendShapeMm): number {
  return 2 * clrMm * Math.sin(radiansOf(angleDeg) / 2);
}

/** Height of a bend's centreline over its chord, mm: `CLR (1 - cos(angle/2))`, written without cancellation. */
export function heightMm({ clrMm, angleDeg }: BendShapeMm): number {
  return 2 * clrMm * Math.sin(radiansOf(angleDeg) / 4) ** 2;
}

/**
 * From either end of a bend to the corner where its straights would meet, mm: `CLR tan(angle/2)`.
 * Infinite from 180 degrees on, where there is no corner.
 */
export function setbackMm({ clrMm, angleDeg }: BendShapeMm): number {
  return angleDeg >= 180 ? Number.POSITIVE_INFINITY : clrMm * Math.tan(radiansOf(angleDeg) / 2);
}

/** How much shorter a bend is than the two straights to its corner, mm; infinite from 180 degrees on. */
export function gainMm(bend: BendShapeMm): number {
  return 2 * setbackMm(bend) - centrelineArcMm(bend.clrMm, bend.angleDeg);
}

/** Circumference of a round tube, mm. */
export function circumferenceMm(odMm: number): number {
  return Math.PI * odMm;
}

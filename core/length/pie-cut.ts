/** Dimensions of a bend welded up from equal pies. */

import { radiansOf } from '../units/angle.ts';
import type { BendShapeMm } from './bend-arcs.ts';

/** A pie-cut bend of `pies` equal chords: as many cuts as chords, CLR to the middle of a pie. */
export interface PieCutMm extends BendShapeMm {
  /** Whole number from 1. */
  readonly pies: number;
}

/** Half of the angle at one cut, in degrees: `angle / 2n`; also the angle to set the saw to. */
export function sawAngleDeg({ angleDeg, pies }: PieCutMm): number {
  return angleDeg / (2 * pies);
}

/**
 * Centreline length of one pie, mm: `2 CLR tan(angle / 2n)`.
 *
 * Infinite when one cut would turn the tube by 180 degrees or more, which no cut can.
 * Source: CAESAR II Applications Guide, Mitered Bends (`R = S / (2 tan t)`, `t = a / 2N`).
 */
export function pieChordMm(bend: PieCutMm): number {
  const halfDeg = sawAngleDeg(bend);
  return halfDeg >= 90 ? Number.POSITIVE_INFINITY : 2 * bend.clrMm * Math.tan(radiansOf(halfDeg));
}

/** Centreline length of the whole bend, mm: n chords, so a little longer than the arc. */
export function pieCutLengthMm(bend: PieCutMm): number {
  return bend.pies * pieChordMm(bend);
}

/** How far a cut runs ahead of the centreline at the outside, and behind it at the inside, mm: `(OD/2) tan t`. */
export function cutBackMm(bend: PieCutMm, odMm: number): number {
  return (odMm / 2) * Math.tan(radiansOf(sawAngleDeg(bend)));
}

/** Length of a pie along the inside, mm; zero or below where cuts would cross inside the tube. */
export function throatMm(bend: PieCutMm, odMm: number): number {
  return pieChordMm(bend) - 2 * cutBackMm(bend, odMm);
}

/** Length of a pie along the outside, mm. */
export function heelMm(bend: PieCutMm, odMm: number): number {
  return pieChordMm(bend) + 2 * cutBackMm(bend, odMm);
}

/** The tolerance band about a target, and on which side of it a length lies. */

import type { Header } from '../header/header.ts';
import { mmOf } from '../units/length.ts';

export type Verdict = 'short' | 'inBand' | 'long';

export interface Band {
  readonly targetMm: number;
  /** The edges, both within the band. */
  readonly lowMm: number;
  readonly highMm: number;
}

/**
 * How far outside the band still counts as on its edge, mm. A deviation of exactly 1/16 in, summed from pieces in both
 * units, comes out some 1e-13 of the length off; this is well above that and far below what any tape can read.
 */
export const BAND_SLACK_MM = 1e-7;

export function bandAbout(targetMm: number, tolerance: Header['settings']['tolerance']): Band {
  return { targetMm, lowMm: targetMm - mmOf(tolerance.minus), highMm: targetMm + mmOf(tolerance.plus) };
}

export function sideOf(lengthMm: number, band: Pick<Band, 'lowMm' | 'highMm'>): Verdict {
  if (lengthMm < band.lowMm - BAND_SLACK_MM) return 'short';
  return lengthMm > band.highMm + BAND_SLACK_MM ? 'long' : 'inBand';
}

/** On which side a deviation from the target lies; the band's edges are in the band. */
export function verdictOfDeviation(deviationMm: number, tolerance: Header['settings']['tolerance']): Verdict {
  return sideOf(deviationMm, bandAbout(0, tolerance));
}

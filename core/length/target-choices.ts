/** Which targets a match report suggests. */

import { type Length, type LengthUnit, MM_PER_INCH } from '../units/length.ts';
import type { MatchReport } from './match-header.ts';

/** Lengths nearer to the mean than this are the mean: targets are worked out from it and back. */
const SAME_MEAN_MM = 0.01;

/** Whether a length is the mean of the primaries. */
export function isMean(lengthMm: number, { meanMm }: Pick<MatchReport, 'meanMm'>): boolean {
  return meanMm !== null && Math.abs(lengthMm - meanMm) < SAME_MEAN_MM;
}

/** A target to start typing from: the one in force, to the sixteenth of an inch or the millimetre, or a yard where there is none. */
export function roundTarget({ targetMm }: Pick<MatchReport, 'targetMm'>, unit: LengthUnit): Length {
  const lengthMm = targetMm === null || targetMm <= 0 ? 36 * MM_PER_INCH : targetMm;
  if (unit === 'mm') return { value: Math.max(1, Math.round(lengthMm)), unit };
  return { value: Math.max(1, Math.round((lengthMm / MM_PER_INCH) * 16)) / 16, unit };
}

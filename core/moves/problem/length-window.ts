/** Which lengths of one primary count as matched, the others staying as they are. */

import type { Header } from '../../header/header.ts';
import { countsInMean, type MatchReport } from '../../length/match-header.ts';
import { mmOf } from '../../units/length.ts';

/** `lowMm` to `highMm` is in the band; `aimMm` is best. */
export interface LengthWindow {
  readonly presentMm: number;
  readonly aimMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/**
 * The lengths that `primaryId` may have; null when it has no pieces or there is no target.
 *
 * A mean moves with a primary that counts for it, by one n-th of what it gains, so it has to go n / (n - 1) of the way. No primary may
 * outgrow a target that is the longest: that would move the target for all others. A primary that is itself the target may
 * keep its length within the tolerance.
 */
export function lengthWindow(header: Header, match: MatchReport, primaryId: string): LengthWindow | null {
  const own = match.primaries.find((one) => one.primaryId === primaryId);
  const { targetMm } = match;
  if (own === undefined || own.deviationMm === null || targetMm === null) return null;
  const minusMm = mmOf(header.settings.tolerance.minus);
  const plusMm = mmOf(header.settings.tolerance.plus);
  const presentMm = own.lengthMm;
  const about = (aimMm: number, reach: number) => ({
    presentMm,
    aimMm,
    lowMm: aimMm - minusMm * reach,
    highMm: aimMm + plusMm * reach,
  });
  if (match.targetPrimaryId === primaryId) return about(presentMm, 1);
  const window = about(targetMm, 1);
  if (header.settings.target.kind === 'longest') return { ...window, highMm: targetMm };
  if (header.settings.target.kind !== 'mean' || !countsInMean(own)) return window;
  const count = match.primaries.filter(countsInMean).length;
  if (count < 2) return about(presentMm, 1);
  const reach = count / (count - 1);
  return about(presentMm - own.deviationMm * reach, reach);
}

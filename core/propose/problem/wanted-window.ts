/** How long a proposed primary may be. */

import type { Header, Primary } from '../../header/header.ts';
import { matchHeader } from '../../length/match-header.ts';
import { mmOf } from '../../units/length.ts';
import type { WantedLength } from '../question.ts';

/** `aimMm` is best, anything from `lowMm` to `highMm` will do. */
export interface WantedWindow {
  readonly aimMm: number;
  readonly lowMm: number;
  readonly highMm: number;
}

/**
 * The lengths that a primary may have as welded; null where it is to be as short as can be: because that is wanted, because the header has no target
 * yet, or because the primary is the target itself. No primary may outgrow a target that is the longest.
 */
export function wantedWindow(header: Header, { id }: Primary, wanted: WantedLength): WantedWindow | null {
  if (wanted.kind === 'least') return null;
  if (wanted.kind === 'about') {
    const { lengthMm, minusMm, plusMm } = wanted;
    return { aimMm: lengthMm, lowMm: lengthMm - minusMm, highMm: lengthMm + plusMm };
  }
  const { targetMm, targetPrimaryId } = matchHeader(header);
  if (targetMm === null || targetPrimaryId === id) return null;
  const { tolerance, target } = header.settings;
  const highMm = target.kind === 'longest' ? targetMm : targetMm + mmOf(tolerance.plus);
  return { aimMm: targetMm, lowMm: targetMm - mmOf(tolerance.minus), highMm };
}

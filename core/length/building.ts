/** Whether a primary is still being built: as long as it is, its length says how far there is to go, and nothing about how well it matches. */

import type { Header, Primary } from '../header/header.ts';
import { missPastSlipMm } from '../path/ends/closure.ts';
import { closureLimits, findInlet, primaryClosure } from '../path/ends/inlet-pose.ts';
import { mmOf } from '../units/length.ts';
import { BAND_SLACK_MM } from './band.ts';

/** Why a primary counts as being built. */
export type Building =
  /** Its end is this far from where its inlet could take it, which leaves room for another piece. */
  | { readonly kind: 'openEnd'; readonly missMm: number }
  /** It goes to no measured inlet, and is short of the target by more than a tenth of it. */
  | { readonly kind: 'farShort' }
  /** All of it is there or planned, and so many of its pieces are only planned. */
  | { readonly kind: 'planned'; readonly pieces: number };

/** The share of the target that a primary without a measured inlet may be short of it and still be taken for whole. */
const WHOLE_FROM = 0.9;

export interface BuildingQuestion {
  readonly lengthMm: number;
  /** The length that it is to come to. */
  readonly targetMm: number;
  /** Whether another piece could be right: it is short of the band, or it sets the target and so is never short. */
  readonly canGrow: boolean;
}

/**
 * Why a primary with pieces is still being built; null when it is whole.
 *
 * It is being built while there is something to be put to it: short of the band with room for a piece between its end
 * and its inlet; or, where that cannot be known (no inlet, not measured, a clocking missing), short by more than a tenth of
 * the target; or with pieces that are only planned. Room for a piece is the header's shortest workable straight, past the
 * inlet's slip: an end that misses by less is off, not unfinished. A primary that is long enough is whole wherever it ends, since
 * no further piece brings it nearer; only the one that sets the target, which is never short, is asked for its end alone.
 * Linear in its pieces.
 */
export function buildingOf(header: Header, primary: Primary, question: BuildingQuestion): Building | null {
  return unfinishedOf(header, primary, question) ?? plannedOf(primary);
}

function plannedOf({ pieces }: Primary): Building | null {
  const planned = pieces.filter(({ state }) => state === 'planned').length;
  return planned === 0 ? null : { kind: 'planned', pieces: planned };
}

function unfinishedOf(header: Header, primary: Primary, question: BuildingQuestion): Building | null {
  const { lengthMm, targetMm, canGrow } = question;
  if (!canGrow) return null;
  const missMm = missOf(header, primary);
  if (missMm === null) return lengthMm < targetMm * WHOLE_FROM - BAND_SLACK_MM ? { kind: 'farShort' } : null;
  const { shortestStraight, closure } = header.settings;
  const roomMm = Math.max(mmOf(shortestStraight), mmOf(closure.gap));
  return missMm >= roomMm && missMm > 0 ? { kind: 'openEnd', missMm } : null;
}

/** How far the end is from where its inlet could take it; null where that is not known. */
function missOf(header: Header, primary: Primary): number | null {
  const inlet = primary.inletId === null ? null : findInlet(header, primary.inletId);
  if (inlet === null || inlet.place === null || primary.port === null) return null;
  const closure = primaryClosure(header, primary);
  return closure.ok ? missPastSlipMm(closure.value, closureLimits(header, inlet)) : null;
}

/** What was measured on a finished primary against what its pieces come to along the same way. */

import { type Header, type Primary, tubeOf } from '../header/header.ts';
import type { MeasureKind } from '../header/measured.ts';
import { mmOf } from '../units/length.ts';
import { type FigureMotion, figureMotions, limitOf } from './figure-motions.ts';
import { lengthAlong, readLength } from './path-lengths.ts';
import { tolerancesOf } from './shop-tolerances.ts';

export type AsBuiltVerdict = 'agrees' | 'longer' | 'shorter';

/** One reading beside the length of the pieces along the same way; all in mm. */
export interface MeasuredLength {
  readonly kind: MeasureKind;
  readonly measuredMm: number;
  /** How far the reading may be out, either way. */
  readonly measuredWithinMm: number;
  readonly computedMm: number;
  /** How far the pieces, made within the shop's tolerances, may be from their figures together. */
  readonly computedWithinMm: number;
  /** Measured minus computed. */
  readonly differenceMm: number;
  /** `longer` and `shorter` say how the tube is to its pieces: apart by more than both may be out. */
  readonly verdict: AsBuiltVerdict;
}

export interface AsBuilt {
  readonly primaryId: string;
  /** In the order of the methods; empty where nothing was measured. */
  readonly lengths: readonly MeasuredLength[];
  /**
   * The centreline by all readings together, the surer one counting for more. A tape along the outside takes the bends as they
   * were entered to become one, so it counts where it agrees with them or is all there is. Null: nothing was measured.
   */
  readonly centreline: { readonly lengthMm: number; readonly withinMm: number } | null;
}

/**
 * How far apart a reading and a sum may be for rounding alone, mm: a reading right at its limit agrees, whichever way its
 * sixteenths come out as millimetres.
 */
const ROUNDING_MM = 1e-7;

/** Compares every reading of a primary with its pieces. Linear in the pieces. */
export function asBuilt(header: Header, primary: Primary): AsBuilt {
  const tube = tubeOf(header, primary);
  const motions = figureMotions(primary, null, mmOf(tube.od));
  const lengths = (primary.measured ?? []).map((reading): MeasuredLength => {
    const { kind } = reading;
    const read = readLength(reading, tube);
    const computedMm = lengthAlong(header, primary, kind);
    const computedWithinMm = lengthWithin(header, motions, kind);
    const differenceMm = read.lengthMm - computedMm;
    const isBeyond = Math.abs(differenceMm) > read.withinMm + computedWithinMm + ROUNDING_MM;
    return {
      kind,
      measuredMm: read.lengthMm,
      measuredWithinMm: read.withinMm,
      computedMm,
      computedWithinMm,
      differenceMm,
      verdict: !isBeyond ? 'agrees' : differenceMm > 0 ? 'longer' : 'shorter',
    };
  });
  return { primaryId: primary.id, lengths, centreline: centrelineOf(header, primary, lengths) };
}

/** Figures that are out independently of each other add as their squares. */
function lengthWithin(header: Header, motions: readonly FigureMotion[], kind: MeasureKind): number {
  const tolerances = tolerancesOf(header);
  return Math.hypot(...motions.map((motion) => limitOf(motion.figure, tolerances) * lengthPer(motion, kind)));
}

/** How the length along a method's way moves with a figure. */
export function lengthPer({ outsidePer, centrelinePer }: FigureMotion, kind: MeasureKind): number {
  return kind === 'outsideTape' ? outsidePer : centrelinePer;
}

/** No reading is surer than this, so that one typed as exact does not silence the others; mm. */
const SUREST_MM = 0.01;

function centrelineOf(header: Header, primary: Primary, lengths: readonly MeasuredLength[]): AsBuilt['centreline'] {
  if (lengths.length === 0) return null;
  const computedMm = lengthAlong(header, primary, 'centreline');
  let sum = 0;
  let weights = 0;
  const direct = lengths.filter(({ kind, verdict }) => kind !== 'outsideTape' || verdict === 'agrees');
  for (const { differenceMm, measuredWithinMm } of direct.length === 0 ? lengths : direct) {
    const weight = 1 / Math.max(SUREST_MM, measuredWithinMm) ** 2;
    sum += weight * differenceMm;
    weights += weight;
  }
  return { lengthMm: computedMm + sum / weights, withinMm: 1 / Math.sqrt(weights) };
}

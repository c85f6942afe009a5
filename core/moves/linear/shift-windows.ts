/** How far the end and the length are from where they must be, in the four figures that straights can mend. */

import type { ClosureLimits } from '../../path/ends/closure.ts';
import type { Frame } from '../../path/frame.ts';
import { binormalOf } from '../../path/frame.ts';
import { dot, type Vector } from '../../path/vector.ts';
import type { LengthWindow } from '../problem/length-window.ts';

/** Millimetres aside (two ways square to the inlet's axis), along it (positive: too deep), and too long. */
export type Four = readonly [number, number, number, number];

/** The inlet's axes: two square to its direction, then the direction. */
export interface MissAxes {
  readonly one: Vector;
  readonly two: Vector;
  readonly along: Vector;
}

export function missAxes(wanted: Frame): MissAxes {
  return { one: wanted.normal, two: binormalOf(wanted), along: wanted.tangent };
}

/** A displacement of the end and a gain in length in those figures. */
export function inAxes({ one, two, along }: MissAxes, by: Vector, lengthMm: number): Four {
  return [dot(one, by), dot(two, by), dot(along, by), lengthMm];
}

/** What each of the four may still be off. `freeLow` to `freeHigh` costs nothing; up to `low` and `high` is allowed. */
export interface MissWindow {
  readonly low: number;
  readonly high: number;
  readonly freeLow: number;
  readonly freeHigh: number;
  /** Cost per millimetre outside the free part. */
  readonly slope: number;
}

/** Millimetres of tube that a millimetre counts as by which a move does not close exactly, or is off the length aimed at. */
export interface MissWeights {
  readonly gap: number;
  readonly offTarget: number;
}

/**
 * The least tube alone would always stop at the edges of band and closure; nobody adds and takes off 100 mm to come 1 mm
 * nearer, or leaves a gap to save some.
 */
export const MISS_WEIGHTS: MissWeights = { gap: 10, offTarget: 4 };

/** A little over the root of three, so that the corners of the cube are in the ball in spite of rounding. */
const ROOT_OF_THREE = Math.sqrt(3) * (1 + 1e-9);

/**
 * The windows. The gap must lie in a ball about the inlet's slip range; taken here is the cube inside that ball, so that
 * what is found is always closed. `extraMm` widens them all, for searches whose turns are not settled yet.
 */
export function missWindows(
  limits: ClosureLimits,
  { aimMm, lowMm, highMm }: LengthWindow,
  weights: MissWeights & { readonly extraMm: number },
): readonly [MissWindow, MissWindow, MissWindow, MissWindow] {
  const { extraMm } = weights;
  const half = limits.gapMm / ROOT_OF_THREE + extraMm;
  const aside: MissWindow = { low: -half, high: half, freeLow: 0, freeHigh: 0, slope: weights.gap };
  const along: MissWindow = {
    low: -half - limits.shallowerMm,
    high: half + limits.deeperMm,
    freeLow: -limits.shallowerMm,
    freeHigh: limits.deeperMm,
    slope: weights.gap,
  };
  const length: MissWindow = {
    low: lowMm - aimMm - extraMm,
    high: highMm - aimMm + extraMm,
    freeLow: 0,
    freeHigh: 0,
    slope: weights.offTarget,
  };
  return [aside, aside, along, length];
}

/** How far off each of the four figures may still be, and what that counts as. */

import type { ClosureLimits } from '../../path/ends/closure.ts';
import type { LengthWindow } from '../problem/length-window.ts';
import type { Shift } from './shift.ts';

/** `freeLow` to `freeHigh` costs nothing; up to `low` and `high` is allowed. */
export interface ShiftWindow {
  readonly low: number;
  readonly high: number;
  readonly freeLow: number;
  readonly freeHigh: number;
  /** Cost per millimetre outside the free part. */
  readonly slope: number;
}

export type ShiftWindows = readonly [ShiftWindow, ShiftWindow, ShiftWindow, ShiftWindow];

/** Millimetres of tube that a millimetre counts as by which a move does not close exactly, or is off the length aimed at. */
export interface ClosenessPrices {
  readonly gap: number;
  readonly offTarget: number;
}

/**
 * The least tube alone would always stop at the edges of band and closure; nobody adds and takes off 100 mm to come 1 mm
 * nearer, or leaves a gap to save some.
 */
export const CLOSENESS_PRICES: ClosenessPrices = { gap: 10, offTarget: 4 };

/** A little over the root of three, so that the corners of the cube are in the ball in spite of rounding. */
const ROOT_OF_THREE = Math.sqrt(3) * (1 + 1e-9);

/**
 * The windows. The gap must lie in a ball about the inlet's slip range; taken here is the cube inside that ball, so that
 * what is found is always closed. `extraMm` widens them all, for searches whose turns are not settled yet.
 */
export function shiftWindows(
  limits: ClosureLimits,
  { aimMm, lowMm, highMm }: LengthWindow,
  prices: ClosenessPrices & { readonly extraMm: number },
): ShiftWindows {
  const { extraMm } = prices;
  const half = limits.gapMm / ROOT_OF_THREE + extraMm;
  const aside: ShiftWindow = { low: -half, high: half, freeLow: 0, freeHigh: 0, slope: prices.gap };
  const along: ShiftWindow = {
    low: -half - limits.shallowerMm,
    high: half + limits.deeperMm,
    freeLow: -limits.shallowerMm,
    freeHigh: limits.deeperMm,
    slope: prices.gap,
  };
  const length: ShiftWindow = {
    low: lowMm - aimMm - extraMm,
    high: highMm - aimMm + extraMm,
    freeLow: 0,
    freeHigh: 0,
    slope: prices.offTarget,
  };
  return [aside, aside, along, length];
}

/** Middle of every window. */
export function middleOf([a, b, c, d]: ShiftWindows): Shift {
  return [(a.low + a.high) / 2, (b.low + b.high) / 2, (c.low + c.high) / 2, (d.low + d.high) / 2];
}

/** Factors that make every window 1 wide to each side of its middle. */
export function scalesOf([a, b, c, d]: ShiftWindows): Shift {
  const scale = ({ low, high }: ShiftWindow) => 2 / Math.max(1e-9, high - low);
  return [scale(a), scale(b), scale(c), scale(d)];
}

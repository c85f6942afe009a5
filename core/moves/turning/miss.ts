/** How far the end of a changed tube misses where it must be. */

import { dot } from '../../path/vector.ts';
import { type InletAxes, inletAxes } from '../linear/shift.ts';
import type { FixedEnds } from '../problem/fixed-ends.ts';
import type { LengthWindow } from '../problem/length-window.ts';
import { endAfter, type Screw } from './end-motion.ts';

/** What the end must meet; everything a search hands to every call. */
export interface Aim {
  readonly ends: FixedEnds;
  readonly axes: InletAxes;
  readonly window: LengthWindow;
}

export function aimAt(ends: FixedEnds, window: LengthWindow): Aim {
  return { ends, axes: inletAxes(ends.wanted), window };
}

/** Where the end comes to lie, judged. */
export interface Miss {
  /** After the inlet's slip has taken what it can. */
  readonly gapMm: number;
  readonly tiltDeg: number;
  readonly lengthMm: number;
  /** Outside the band, mm; zero within. */
  readonly outsideMm: number;
}

/** What is left of a limit, so that a move that ends just on it is not refused when it is traced anew and rounds the other way. */
const WITHIN = 1 - 1e-10;

/** Gap and tilt within limits, length in the band. */
export function isMet({ gapMm, tiltDeg, outsideMm }: Miss, { ends: { limits } }: Aim): boolean {
  return gapMm <= limits.gapMm * WITHIN && tiltDeg <= limits.tiltDeg * WITHIN && outsideMm <= 1e-7;
}

/** The miss with the screws at these values. */
export function missAt(aim: Aim, screws: readonly Screw[], values: ArrayLike<number>): Miss {
  return judge(aim, endAfter(screws, values, aim.ends.end), lengthAt(aim, screws, values));
}

/** Centreline length with the screws at these values, mm. */
export function lengthAt({ window }: Aim, screws: readonly Screw[], values: ArrayLike<number>): number {
  let lengthMm = window.presentMm;
  for (let i = 0; i < screws.length; i += 1) {
    const { lengthPer, lengthShiftMm } = screws[i] as Screw;
    lengthMm += lengthPer * (values[i] as number) + lengthShiftMm;
  }
  return lengthMm;
}

function judge({ ends, axes, window }: Aim, end: Float64Array, lengthMm: number): Miss {
  const { wanted, limits } = ends;
  const by = {
    x: (end[0] as number) - wanted.point.x,
    y: (end[1] as number) - wanted.point.y,
    z: (end[2] as number) - wanted.point.z,
  };
  const tangent = { x: end[3] as number, y: end[4] as number, z: end[5] as number };
  const beyond = outside(dot(axes.along, by), -limits.shallowerMm, limits.deeperMm);
  const sideways = Math.hypot(dot(axes.one, by), dot(axes.two, by));
  const leaning = Math.hypot(dot(axes.one, tangent), dot(axes.two, tangent));
  return {
    gapMm: Math.hypot(beyond, sideways),
    tiltDeg: (Math.atan2(leaning, dot(axes.along, tangent)) * 180) / Math.PI,
    lengthMm,
    outsideMm: Math.abs(outside(lengthMm, window.lowMm, window.highMm)),
  };
}

/** How far a value is outside a range, with its sign; zero within. */
export function outside(value: number, low: number, high: number): number {
  return value < low ? value - low : Math.max(0, value - high);
}

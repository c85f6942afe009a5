/** The one piece or two that end in an inlet: a straight, a bend, or a bend with a straight before or after it, in figures that can be sawn and set. */

import type { SawStep } from '../moves/offer/saw-steps.ts';
import { type ClosureLimits, closureOf, isClosed } from '../path/ends/closure.ts';
import { clockBy, type Frame, goRound } from '../path/frame.ts';
import { addScaled, angleBetweenRad, dot, squareTo, subtract, turnBetweenRad, type Vector } from '../path/vector.ts';
import { degreesOf, radiansOf } from '../units/angle.ts';
import { type LengthUnit, lengthIn, MM_PER_INCH } from '../units/length.ts';
import type { LeastStraights, TubeEnds } from './joints/tube-shape.ts';
import { type RoundedBend, type RoundedShape, USABLE } from './offer/round-shape.ts';

export interface FinishQuestion {
  readonly ends: TubeEnds;
  readonly limits: ClosureLimits;
  /** Tightest first. */
  readonly clrsMm: readonly number[];
  /** Shortest straight before a bend or alone, and after one, mm. */
  readonly least: Pick<LeastStraights, 'firstMm' | 'lastMm'>;
  readonly unit: LengthUnit;
  /** Coarsest first. */
  readonly steps: readonly SawStep[];
}

/** A bend of less is hardly one, degrees: nobody saws and welds it. */
const LEAST_BEND_DEG = 2;
const LARGEST_BEND_DEG = 180;
/** Angles, and clockings, that are tried of one bend on one grid, those nearest to the exact one. */
const MOST_TRIED = 9;

/** Where a straight stands beside the bend. */
type Straight = 'none' | 'first' | 'last';

interface Fit {
  readonly shape: RoundedShape;
  readonly gapMm: number;
}

/**
 * Fewest pieces first, a straight before a bend, then the CLRs in their order, then the coarsest grid; of one grid the pieces that end nearest to the inlet. Null where none of them
 * closes. On each grid all angles and clockings are tried that point within the tilt allowed, nine of each at most; the straight follows from them.
 */
export function finishingPieces(question: FinishQuestion): RoundedShape | null {
  const { start } = question.ends;
  const onFirstGrid = (fitOn: (step: SawStep) => Fit | null) => {
    for (const step of question.steps) {
      const fit = fitOn(step);
      if (fit !== null) return fit.shape;
    }
    return null;
  };
  const ways = [
    (step: SawStep) => straightFit(question, { end: start, along: start.tangent, bends: [], straight: 'first' }, step),
    ...question.clrsMm.map((clrMm) => (step: SawStep) => bendFit(question, clrMm, ['none'], step)),
    ...question.clrsMm.map((clrMm) => (step: SawStep) => bendFit(question, clrMm, ['first', 'last'], step)),
  ];
  for (const way of ways) {
    const shape = onFirstGrid(way);
    if (shape !== null) return shape;
  }
  return null;
}

/** The bend that ends nearest to the inlet, with straights in these places. */
function bendFit(question: FinishQuestion, clrMm: number, places: readonly Straight[], step: SawStep): Fit | null {
  const { start } = question.ends;
  let best: Fit | null = null;
  for (const bend of bendsOnGrid(question, clrMm, step)) {
    const end = goRound(clockBy(start, bend.clockingDeg), clrMm, bend.angleDeg);
    for (const straight of places) {
      const along = straight === 'last' ? end.tangent : start.tangent;
      const fit = straightFit(question, { end, along, bends: [bend], straight }, step);
      if (fit !== null && (best === null || fit.gapMm < best.gapMm)) best = fit;
    }
  }
  return best;
}

/**
 * Bends that point as the inlet does, within the tilt allowed. Their clocking is told by the inlet's direction or by the side on which it lies, whichever tells
 * more: near 0 and 180 degrees the direction hardly hangs on it.
 */
function bendsOnGrid({ ends, limits }: FinishQuestion, clrMm: number, { anglePer }: SawStep): readonly RoundedBend[] {
  const { start, wanted } = ends;
  const inward = squareTo(start.tangent, wanted.tangent);
  const aside = squareTo(start.tangent, subtract(wanted.point, start.point));
  const turn = Math.sqrt(dot(inward, inward));
  const asideMm = Math.sqrt(dot(aside, aside));
  const roomMm = limits.gapMm + (limits.deeperMm + limits.shallowerMm) * turn;
  const byDirectionDeg = spreadDeg(Math.sin(radiansOf(limits.tiltDeg)), turn);
  const bySideDeg = spreadDeg(roomMm, asideMm);
  const [side, withinDeg] = byDirectionDeg <= bySideDeg ? [inward, byDirectionDeg] : [aside, bySideDeg];
  const clockingsDeg = onGridNear(degreesOf(turnBetweenRad(start.tangent, start.normal, side)), withinDeg, anglePer);
  return onGridNear(degreesOf(angleBetweenRad(start.tangent, wanted.tangent)), limits.tiltDeg, anglePer)
    .filter((angleDeg) => angleDeg >= LEAST_BEND_DEG && angleDeg <= LARGEST_BEND_DEG)
    .flatMap((angleDeg) => clockingsDeg.map((clockingDeg) => ({ clrMm, angleDeg, clockingDeg })));
}

/** By how much a direction may be off that is `long` and may miss by `miss`; 180 where anything goes. */
function spreadDeg(miss: number, long: number): number {
  return miss >= long ? 180 : degreesOf(Math.asin(miss / long));
}

/** Slack in units of the grid, so that what lies on it to rounding is not left out. */
const ON_GRID = 1e-7;

function onGridNear(value: number, within: number, per: number): readonly number[] {
  const low = Math.ceil((value - within) * per - ON_GRID);
  const high = Math.floor((value + within) * per + ON_GRID);
  const nearest = Math.round(value * per);
  const first = Math.max(low, nearest - (MOST_TRIED - 1) / 2);
  const last = Math.min(high, nearest + (MOST_TRIED - 1) / 2);
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => Number(((first + i) / per).toFixed(6)) + 0);
}

/** A tube without its straight. */
interface Turned {
  /** Where it ends with a straight of zero. */
  readonly end: Frame;
  /** Which way the straight moves that end. */
  readonly along: Vector;
  readonly bends: readonly RoundedBend[];
  readonly straight: Straight;
}

/** With the straight that ends nearest to the inlet, down and up on the grid; null where it does not close. */
function straightFit(question: FinishQuestion, turned: Turned, step: SawStep): Fit | null {
  const { end, along, bends, straight } = turned;
  const { ends, limits, unit } = question;
  const usable = { ...limits, gapMm: limits.gapMm * USABLE, tiltDeg: limits.tiltDeg * USABLE };
  let best: { readonly mm: number; readonly gapMm: number } | null = null;
  for (const mm of straight === 'none' ? [0] : straightsOnGrid(question, turned, step)) {
    const closure = closureOf({ ...end, point: addScaled(end.point, along, mm) }, ends.wanted);
    if (isClosed(closure, usable) && (best === null || closure.gapMm < best.gapMm)) best = { mm, gapMm: closure.gapMm };
  }
  if (best === null) return null;
  const { mm, gapMm } = best;
  const straightsMm = bends.length === 0 ? [mm] : straight === 'first' ? [mm, 0] : [0, mm];
  const arcsMm = bends.reduce((sumMm, { clrMm, angleDeg }) => sumMm + clrMm * radiansOf(angleDeg), 0);
  return {
    shape: { straights: straightsMm.map((one) => lengthIn(one, unit)), bends, lengthMm: arcsMm + mm },
    gapMm,
  };
}

/** Both neighbours on the grid of the straight that ends nearest to the inlet, and of the one that makes most of the inlet's slip; none under the least. */
function straightsOnGrid(
  { ends: { wanted }, limits, least, unit }: FinishQuestion,
  { end, along, straight }: Turned,
  { lengthPer }: SawStep,
): readonly number[] {
  const perMm = unit === 'in' ? lengthPer / MM_PER_INCH : lengthPer;
  const gap = subtract(wanted.point, end.point);
  const slipAside = squareTo(along, wanted.tangent);
  const square = dot(slipAside, slipAside);
  const wishMm = square < 1e-12 ? 0 : dot(gap, slipAside) / square;
  const slipMm = Math.min(limits.shallowerMm, Math.max(-limits.deeperMm, wishMm));
  const leastMm = straight === 'last' ? least.lastMm : least.firstMm;
  const leastCount = Math.ceil(leastMm * perMm - ON_GRID);
  const counts = [0, slipMm].flatMap((usedMm) => {
    const count = dot(addScaled(gap, wanted.tangent, -usedMm), along) * perMm;
    return [Math.floor(count + ON_GRID), Math.ceil(count - ON_GRID)].map((one) => Math.max(leastCount, one));
  });
  return [...new Set(counts)].filter((count) => count > 0).map((count) => count / perMm);
}

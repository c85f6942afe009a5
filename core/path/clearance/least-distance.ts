/** The least distance between two sets of stretches, proven by a lower bound rather than sampled. */

import FlatQueue from 'flatqueue';
import type { Span } from '../trace-primary.ts';
import { nearestOnSegments } from './nearest-on-segments.ts';
import { apartAt, type NearestPlaces, settleNearest } from './settle-nearest.ts';
import { halvesOf, type Stretch } from './stretch.ts';

/** The nearest points found, and their spans. `provenMm` is a lower bound: the true least lies between the two. */
export interface LeastDistance extends NearestPlaces {
  readonly spanA: Span;
  readonly spanB: Span;
  readonly provenMm: number;
}

/** How near the proof comes to the distance found, in millimetres. */
export const PROVEN_WITHIN_MM = 1e-6;

/**
 * Where two tubes run side by side the distance is the same all along, and no part of them can be left out early. After this many
 * looks it is enough to prove the distance to within `PROVEN_AT_WORST_MM`; what was found is settled exactly all the same.
 */
const PATIENCE = 1500;
export const PROVEN_AT_WORST_MM = 0.004;

/** No pair of tubes is worth more looks than this; what the proof lacks then is told by `provenMm`. */
const MOST_LOOKS = 100_000;

export interface StretchPair {
  readonly a: Stretch;
  readonly b: Stretch;
}

/**
 * The least distance from a stretch of `one` to a stretch of `other`; null when there is none of either.
 *
 * Branch and bound, nearest first. A pair of stretches is at least as far apart as their straight cores less both slacks,
 * and pairs are halved until no bound lies more than `PROVEN_WITHIN_MM` below the best distance found. The slack
 * falls to a quarter with each halving, so a bottom is pinned down in about a dozen halvings. Upper bounds are real
 * distances between points of the two tubes, settled by Newton's method: the answer is never below the true least, and
 * never above it by more than the proof allows. Pairs whose enclosing spheres are farther apart are dropped unseen.
 */
export function leastDistance(one: readonly Stretch[], other: readonly Stretch[]): LeastDistance | null {
  const search = new NearestSearch();
  const first = nearestSpheres(one, other);
  if (first === null) return null;
  search.consider(first.a, first.b, Number.NEGATIVE_INFINITY);
  for (const a of one) {
    for (const b of other) search.consider(a, b, sphereBound(a, b));
  }
  return search.run();
}

/** No less than this apart; by the spheres around them. */
export function sphereBound(a: Stretch, b: Stretch): number {
  const dx = a.middle.x - b.middle.x;
  const dy = a.middle.y - b.middle.y;
  const dz = a.middle.z - b.middle.z;
  return Math.sqrt(dx * dx + dy * dy + dz * dz) - a.reachMm - b.reachMm;
}

/** The pair to look at first, so that most of the others can be dropped at a glance. */
function nearestSpheres(one: readonly Stretch[], other: readonly Stretch[]): StretchPair | null {
  let nearestA: Stretch | undefined;
  let nearestB: Stretch | undefined;
  let nearestMm = Number.POSITIVE_INFINITY;
  for (const a of one) {
    for (const b of other) {
      const boundMm = sphereBound(a, b);
      if (boundMm >= nearestMm) continue;
      nearestA = a;
      nearestB = b;
      nearestMm = boundMm;
    }
  }
  return nearestA === undefined || nearestB === undefined ? null : { a: nearestA, b: nearestB };
}

/** The best so far, and the pairs that may still hold better. */
export class NearestSearch {
  private readonly waiting = new FlatQueue<StretchPair>();
  private best: Omit<LeastDistance, 'provenMm'> | null = null;
  /** Infinite before anything was found. */
  bestMm = Number.POSITIVE_INFINITY;

  /** Queues a pair unless it is certain not to hold anything nearer; `knownMm` is a bound that is known already. */
  consider(a: Stretch, b: Stretch, knownMm: number): void {
    if (knownMm >= this.bestMm - PROVEN_WITHIN_MM) return;
    const cores = nearestOnSegments(a.coreStart, a.coreEnd, b.coreStart, b.coreEnd);
    const boundMm = cores.distanceMm - a.slackMm - b.slackMm;
    if (boundMm >= this.bestMm - PROVEN_WITHIN_MM) return;
    const alongA = a.fromMm + (a.toMm - a.fromMm) * cores.shareA;
    const alongB = b.fromMm + (b.toMm - b.fromMm) * cores.shareB;
    const distanceMm = apartAt(a.span, alongA, b.span, alongB);
    if (distanceMm < this.bestMm) this.take(a.span, b.span, settleNearest(a, b, { alongA, alongB, distanceMm }));
    if (a.slackMm + b.slackMm > 0) this.waiting.push({ a, b }, Math.max(boundMm, knownMm));
  }

  /** Takes in two places, as a distance that there is, if they are the nearest so far. */
  take(spanA: Span, spanB: Span, places: NearestPlaces): void {
    if (places.distanceMm >= this.bestMm) return;
    this.best = { spanA, spanB, ...places };
    this.bestMm = places.distanceMm;
  }

  /** Halves what is left until nothing can be nearer; null when nothing was ever considered or taken in. */
  run(): LeastDistance | null {
    let looks = 0;
    for (let boundMm = this.waiting.peekValue(); boundMm !== undefined; boundMm = this.waiting.peekValue()) {
      looks += 1;
      const allowedMm = looks > PATIENCE ? PROVEN_AT_WORST_MM : PROVEN_WITHIN_MM;
      // No distance is below zero, so tubes that cross need no further proof.
      const lowestMm = Math.max(0, boundMm);
      if (lowestMm >= this.bestMm - allowedMm || looks > MOST_LOOKS) return this.answer(lowestMm);
      this.halve(this.waiting.pop() as StretchPair, boundMm);
    }
    return this.answer(this.bestMm - PROVEN_WITHIN_MM);
  }

  private halve({ a, b }: StretchPair, boundMm: number): void {
    if (a.slackMm >= b.slackMm) {
      for (const half of halvesOf(a)) this.consider(half, b, boundMm);
    } else {
      for (const half of halvesOf(b)) this.consider(a, half, boundMm);
    }
  }

  private answer(lowestMm: number): LeastDistance | null {
    if (this.best === null) return null;
    return { ...this.best, provenMm: Math.max(0, Math.min(lowestMm, this.bestMm - PROVEN_WITHIN_MM)) };
  }
}

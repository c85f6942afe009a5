/** The least distance of a centreline from itself, between places that lie far enough round from each other. */

import FlatQueue from 'flatqueue';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import type { ArcSpan, Span, TubePath } from '../trace-primary.ts';
import { angleBetweenRad } from '../vector.ts';
import {
  type LeastDistance,
  NearestSearch,
  PROVEN_AT_WORST_MM,
  PROVEN_WITHIN_MM,
  type StretchPair,
  sphereBound,
} from './least-distance.ts';
import { apartAt } from './settle-nearest.ts';
import { stretchesOfPart } from './stretch.ts';

const TURN_ROUNDING_DEG = 1e-6;
/** Until it has turned this far a tube only moves away from itself; two 90s count as 180, whatever their last digits say. */
const ENOUGH_DEG = 180 - TURN_ROUNDING_DEG;

/** A span with the turn of the tube, in degrees from the port, at its start and at its end. */
interface TurnedSpan {
  readonly span: Span;
  readonly fromDeg: number;
  readonly toDeg: number;
}

/**
 * Parts of two arcs of which only the places that lie just far enough round, or farther, count: a triangle in the plane of their
 * places along the arcs, with its long side where the turn between them is just enough.
 */
interface Wedge {
  readonly spanA: ArcSpan;
  readonly spanB: ArcSpan;
  readonly fromA: number;
  readonly toA: number;
  readonly fromB: number;
  readonly toB: number;
}

/**
 * The least distance between two places of a path between which it turns by at least 180 degrees; null when it never does.
 *
 * Where the line between two points of a smooth curve is square to both ends, the curve turns by at least 180 degrees on the
 * way (Fenchel's theorem, 1929: a closed curve turns by at least 360). So a place where the tube comes back to itself is
 * never missed, and what turns less comes nearer only as neighbours do. The mitres of pie-cut bends count as turns.
 *
 * Which places count is worked out exactly: of two spans it is all, none, or for two arcs a rectangle with a corner cut
 * off. Rectangles are searched as in `leastDistance`. What is left at the cut is wedges, which are split into a rectangle and
 * two wedges of half the size until their bound is above the best. Errors as of `leastDistance`.
 */
export function leastSelfDistance(path: TubePath): LeastDistance | null {
  const pairs: StretchPair[] = [];
  const wedges: Wedge[] = [];
  const spans = turnedSpans(path);
  for (const [i, a] of spans.entries()) {
    for (const b of spans.slice(i)) addPlaces(a, b, pairs, wedges);
  }
  const search = new NearestSearch();
  const inOrder = pairs.map((pair) => ({ ...pair, leastMm: sphereBound(pair.a, pair.b) }));
  inOrder.sort((a, b) => a.leastMm - b.leastMm);
  for (const { a, b, leastMm } of inOrder) search.consider(a, b, leastMm);
  const wedgesMm = splitWedges(search, wedges);
  const least = search.run();
  return least === null ? null : { ...least, provenMm: Math.max(0, Math.min(least.provenMm, wedgesMm)) };
}

function turnedSpans(path: TubePath): readonly TurnedSpan[] {
  let turnedDeg = 0;
  return path.spans.map((span, index) => {
    const before = path.spans[index - 1];
    if (before !== undefined) turnedDeg += mitreDeg(before, span);
    const fromDeg = turnedDeg;
    if (span.kind === 'arc') turnedDeg += span.angleDeg;
    return { span, fromDeg, toDeg: turnedDeg };
  });
}

/** Turn at the joint between two spans: zero but for the mitres of a pie-cut bend, whose spans are both lines. */
function mitreDeg(before: Span, after: Span): number {
  if (before.kind === 'arc' || after.kind === 'arc' || before.pieceIndex !== after.pieceIndex) return 0;
  return degreesOf(angleBetweenRad(before.tangent, after.tangent));
}

/** The places of two spans, the first of them before the second or the same, that lie far enough round from each other. */
function addPlaces(a: TurnedSpan, b: TurnedSpan, pairs: StretchPair[], wedges: Wedge[]): void {
  const toA = Math.min(a.toDeg, b.toDeg - ENOUGH_DEG);
  const fromB = Math.max(b.fromDeg, a.fromDeg + ENOUGH_DEG);
  if (toA < a.fromDeg) return;
  /** Up to here along the first span all of the second from `fromB` on counts. */
  const cutFrom = Math.min(toA, fromB - ENOUGH_DEG);
  const addPairs = (rangeA: readonly [number, number], rangeB: readonly [number, number]) => {
    for (const one of stretchesOfPart(a.span, ...alongOf(a, rangeA))) {
      for (const other of stretchesOfPart(b.span, ...alongOf(b, rangeB))) pairs.push({ a: one, b: other });
    }
  };
  const { span: spanA } = a;
  const { span: spanB } = b;
  if (spanA.kind === 'line' || spanB.kind === 'line' || cutFrom >= toA) {
    addPairs([a.fromDeg, toA], [fromB, b.toDeg]);
    return;
  }
  if (cutFrom > a.fromDeg) addPairs([a.fromDeg, cutFrom], [fromB, b.toDeg]);
  if (b.toDeg > toA + ENOUGH_DEG) addPairs([cutFrom, toA], [toA + ENOUGH_DEG, b.toDeg]);
  const [fromMmA, toMmA] = alongOf(a, [cutFrom, toA]);
  const [fromMmB, toMmB] = alongOf(b, [cutFrom + ENOUGH_DEG, toA + ENOUGH_DEG]);
  wedges.push({ spanA, spanB, fromA: fromMmA, toA: toMmA, fromB: fromMmB, toB: toMmB });
}

/** Degrees of turn from the port as millimetres along a span; a line is taken whole. */
function alongOf({ span, fromDeg }: TurnedSpan, [from, to]: readonly [number, number]): readonly [number, number] {
  if (span.kind === 'line') return [0, span.lengthMm];
  const along = (deg: number) => Math.min(span.lengthMm, Math.max(0, radiansOf(deg - fromDeg) * span.clrMm));
  return [along(from), along(to)];
}

/** So many looks as in `leastDistance`, and then as little is asked. */
const PATIENCE = 1500;

/** Splits wedges until none holds anything nearer than the search has found, and returns the least that any of them may hold. */
function splitWedges(search: NearestSearch, wedges: readonly Wedge[]): number {
  const waiting = new FlatQueue<Wedge>();
  const add = (wedge: Wedge) => waiting.push(wedge, wedgeBound(search, wedge));
  for (const wedge of wedges) add(wedge);
  for (let looks = 0; ; looks += 1) {
    const boundMm = waiting.peekValue() ?? Number.POSITIVE_INFINITY;
    if (boundMm >= search.bestMm - (looks > PATIENCE ? PROVEN_AT_WORST_MM : PROVEN_WITHIN_MM)) return boundMm;
    const wedge = waiting.pop() as Wedge;
    const middleA = (wedge.fromA + wedge.toA) / 2;
    const middleB = (wedge.fromB + wedge.toB) / 2;
    for (const one of stretchesOfPart(wedge.spanA, wedge.fromA, middleA)) {
      for (const other of stretchesOfPart(wedge.spanB, middleB, wedge.toB)) search.consider(one, other, boundMm);
    }
    add({ ...wedge, toA: middleA, toB: middleB });
    add({ ...wedge, fromA: middleA, fromB: middleB });
  }
}

/**
 * No place of a wedge is nearer than this; its corners are taken in.
 *
 * Half the squared distance, over places along two arcs of radius r, has second derivatives of at most 2 + d / r, d being the largest
 * distance there is. So it lies below what its values at the three corners say, in a straight line between them, by at most
 * half of that times the squared radius of the circle through them.
 */
function wedgeBound(search: NearestSearch, { spanA, spanB, fromA, toA, fromB, toB }: Wedge): number {
  let nearest = Number.POSITIVE_INFINITY;
  let farthest = 0;
  for (const [alongA, alongB] of [
    [fromA, fromB],
    [fromA, toB],
    [toA, toB],
  ] as const) {
    const distanceMm = apartAt(spanA, alongA, spanB, alongB);
    search.take(spanA, spanB, { alongA, alongB, distanceMm });
    nearest = Math.min(nearest, distanceMm);
    farthest = Math.max(farthest, distanceMm);
  }
  const [sideA, sideB] = [toA - fromA, toB - fromB];
  const bend = 2 + (farthest + sideA + sideB) / Math.min(spanA.clrMm, spanB.clrMm);
  const squared = nearest * nearest - (bend * (sideA * sideA + sideB * sideB)) / 4;
  return Math.sqrt(Math.max(0, squared));
}

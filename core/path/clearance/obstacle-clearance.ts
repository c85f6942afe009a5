/** Least gap between a tube and a simple body: a box, a cylinder or the far side of a plane. */

import FlatQueue from 'flatqueue';
import type { Obstacle } from '../../header/header.ts';
import { assertNever } from '../../result.ts';
import { mmOf } from '../../units/length.ts';
import { unitDirection, vectorOfPlace } from '../frame.ts';
import { add, addScaled, dot, magnitude, scale, subtract, type Vector } from '../vector.ts';
import type { TubeBody } from './clearance.ts';
import { PROVEN_AT_WORST_MM, PROVEN_WITHIN_MM } from './least-distance.ts';
import { placeOn } from './settle-nearest.ts';
import { halvesOf, type Stretch } from './stretch.ts';

export interface ObstacleClearance {
  /** From the tube's outside to the body; negative where they overlap. */
  readonly gapMm: number;
  /** The true gap is not more than this below `gapMm`. */
  readonly errorMm: number;
  /** Nearest point of the centreline. */
  readonly centre: Vector;
  /** Nearest point of the body; the centre point itself where that lies inside. */
  readonly onObstacle: Vector;
  readonly pieceIndex: number;
}

/** The point of a convex body nearest to a point, and how far away it is: zero inside, or negative for a plane. */
interface Nearest {
  readonly onBody: Vector;
  readonly distanceMm: number;
}

interface ConvexBody {
  readonly nearest: (point: Vector) => Nearest;
  /** No distance is less: 0 for what has an inside, where every place counts alike. */
  readonly leastMm: number;
}

/**
 * The least gap between a tube and an obstacle; null when the tube has no pieces or the obstacle is no body
 * (a plane without direction, a cylinder without length).
 *
 * Distance to a convex body is convex along a line, so a line's nearest point is found by golden section; arcs are halved
 * as in `leastDistance`. Inside a box or cylinder the distance of the centreline counts as zero; behind a plane it is
 * negative. Error: 1e-6 mm, 0.004 mm at worst.
 */
export function obstacleClearance(body: TubeBody, obstacle: Obstacle): ObstacleClearance | null {
  const convex = convexBody(obstacle);
  if (convex === null || body.stretches.length === 0) return null;
  const found = nearestToBody(body.stretches, convex);
  if (found === null) return null;
  return {
    gapMm: found.distanceMm - body.odMm / 2,
    errorMm: found.errorMm,
    centre: found.centre,
    onObstacle: convex.nearest(found.centre).onBody,
    pieceIndex: found.stretch.span.pieceIndex,
  };
}

interface Found {
  readonly stretch: Stretch;
  readonly centre: Vector;
  readonly distanceMm: number;
  readonly errorMm: number;
}

const PATIENCE = 300;

/** The stretches in the order of their enclosing spheres, so that most are dropped at a glance for one that was nearer. */
function nearestToBody(stretches: readonly Stretch[], body: ConvexBody): Found | null {
  const waiting = new FlatQueue<Stretch>();
  let best: Omit<Found, 'errorMm'> | null = null;
  const atLeastMm = (stretch: Stretch) =>
    Math.max(body.leastMm, body.nearest(stretch.middle).distanceMm - stretch.reachMm);
  const consider = (stretch: Stretch, leastMm = atLeastMm(stretch)) => {
    if (best !== null && leastMm >= best.distanceMm - PROVEN_WITHIN_MM) return;
    const share = nearestShare(stretch, body);
    const core = add(stretch.coreStart, scale(subtract(stretch.coreEnd, stretch.coreStart), share));
    const centre = placeOn(stretch.span, stretch.fromMm + (stretch.toMm - stretch.fromMm) * share);
    const { distanceMm } = body.nearest(centre);
    if (best === null || distanceMm < best.distanceMm) best = { stretch, centre, distanceMm };
    const boundMm = Math.max(body.leastMm, body.nearest(core).distanceMm - stretch.slackMm);
    if (stretch.slackMm > 0 && boundMm < best.distanceMm - PROVEN_WITHIN_MM) waiting.push(stretch, boundMm);
  };
  const inOrder = stretches.map((stretch) => ({ stretch, leastMm: atLeastMm(stretch) }));
  inOrder.sort((a, b) => a.leastMm - b.leastMm);
  for (const { stretch, leastMm } of inOrder) consider(stretch, leastMm);
  return provenBest(waiting, consider, () => best);
}

/** Halves what could still be nearer until nothing can. */
function provenBest(
  waiting: FlatQueue<Stretch>,
  consider: (stretch: Stretch) => void,
  bestSoFar: () => Omit<Found, 'errorMm'> | null,
): Found | null {
  let looks = 0;
  for (let boundMm = waiting.peekValue(); boundMm !== undefined; boundMm = waiting.peekValue()) {
    looks += 1;
    const best = bestSoFar();
    const allowedMm = looks > PATIENCE ? PROVEN_AT_WORST_MM : PROVEN_WITHIN_MM;
    if (best !== null && boundMm >= best.distanceMm - allowedMm) {
      return { ...best, errorMm: Math.max(PROVEN_WITHIN_MM, best.distanceMm - boundMm) };
    }
    for (const half of halvesOf(waiting.pop() as Stretch)) consider(half);
  }
  const best = bestSoFar();
  return best === null ? null : { ...best, errorMm: PROVEN_WITHIN_MM };
}

const GOLDEN = (Math.sqrt(5) - 1) / 2;

/** Share of a stretch's straight core that is nearest to the body: golden section over a convex function. */
function nearestShare(stretch: Stretch, body: ConvexBody): number {
  const along = subtract(stretch.coreEnd, stretch.coreStart);
  const at = (share: number) => body.nearest(addScaled(stretch.coreStart, along, share)).distanceMm;
  let low = 0;
  let high = 1;
  let [left, right] = [1 - GOLDEN, GOLDEN];
  let [atLeft, atRight] = [at(left), at(right)];
  while ((high - low) * magnitude(along) > 1e-7) {
    if (atLeft <= atRight) {
      [high, right, atRight] = [right, left, atLeft];
      left = high - GOLDEN * (high - low);
      atLeft = at(left);
    } else {
      [low, left, atLeft] = [left, right, atRight];
      right = low + GOLDEN * (high - low);
      atRight = at(right);
    }
  }
  const middle = (low + high) / 2;
  // The ends themselves are never probed above, and are often the answer.
  return [0, 1].reduce((best, end) => (at(end) < at(best) ? end : best), middle);
}

function convexBody(obstacle: Obstacle): ConvexBody | null {
  switch (obstacle.kind) {
    case 'box':
      return boxBody(vectorOfPlace(obstacle.corner), vectorOfPlace(obstacle.opposite));
    case 'cylinder':
      return cylinderBody(vectorOfPlace(obstacle.from), vectorOfPlace(obstacle.to), mmOf(obstacle.diameter) / 2);
    case 'plane':
      return planeBody(vectorOfPlace(obstacle.at), unitDirection(obstacle.normal));
    default:
      return assertNever(obstacle);
  }
}

function boxBody(corner: Vector, opposite: Vector): ConvexBody {
  const within = (value: number, a: number, b: number) => Math.min(Math.max(value, Math.min(a, b)), Math.max(a, b));
  const nearest = (point: Vector) => {
    const onBody = {
      x: within(point.x, corner.x, opposite.x),
      y: within(point.y, corner.y, opposite.y),
      z: within(point.z, corner.z, opposite.z),
    };
    return { onBody, distanceMm: magnitude(subtract(point, onBody)) };
  };
  return { nearest, leastMm: 0 };
}

/** A solid cylinder with flat ends. */
function cylinderBody(from: Vector, to: Vector, radiusMm: number): ConvexBody | null {
  const axis = unitDirection(subtract(to, from));
  if (axis === null) return null;
  const lengthMm = magnitude(subtract(to, from));
  const nearest = (point: Vector) => {
    const fromEnd = subtract(point, from);
    const alongMm = dot(fromEnd, axis);
    const outward = addScaled(fromEnd, axis, -alongMm);
    const outMm = magnitude(outward);
    const foot = addScaled(from, axis, Math.min(Math.max(alongMm, 0), lengthMm));
    const onBody = addScaled(foot, outward, outMm > radiusMm ? radiusMm / outMm : 1);
    return { onBody, distanceMm: magnitude(subtract(point, onBody)) };
  };
  return { nearest, leastMm: 0 };
}

/** Everything behind a plane; its normal points to the side of the tubes. */
function planeBody(at: Vector, normal: Vector | null): ConvexBody | null {
  if (normal === null) return null;
  const nearest = (point: Vector) => {
    const heightMm = dot(subtract(point, at), normal);
    return { onBody: addScaled(point, normal, -heightMm), distanceMm: heightMm };
  };
  return { nearest, leastMm: Number.NEGATIVE_INFINITY };
}

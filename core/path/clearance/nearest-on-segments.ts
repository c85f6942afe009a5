/** The nearest points of two straight segments. */

import { dot, subtract, type Vector } from '../vector.ts';

/** Shares along the first and the second segment, 0 to 1, and the distance between those points. */
export interface NearestShares {
  readonly shareA: number;
  readonly shareB: number;
  readonly distanceMm: number;
}

/** Below this squared sine the segments count as parallel and their ends are tried as well. */
const NEARLY_PARALLEL = 1e-10;

const clamp = (share: number) => Math.min(1, Math.max(0, share));

/**
 * Nearest points of the segments a0-a1 and b0-b1; either may have length zero.
 *
 * Closed form (C. Ericson, Real-Time Collision Detection, 2005, section 5.1.9, from memory): the common normal of the
 * two lines, clamped to the first segment, then to the second, then back. Where the lines are parallel to within 1e-5 the
 * common normal is lost to rounding, but then the least distance occurs at an end to within rounding, and all four ends
 * are tried. Error: rounding of the coordinates.
 */
export function nearestOnSegments(a0: Vector, a1: Vector, b0: Vector, b1: Vector): NearestShares {
  const ax = a1.x - a0.x;
  const ay = a1.y - a0.y;
  const az = a1.z - a0.z;
  const bx = b1.x - b0.x;
  const by = b1.y - b0.y;
  const bz = b1.z - b0.z;
  const rx = a0.x - b0.x;
  const ry = a0.y - b0.y;
  const rz = a0.z - b0.z;
  const aa = ax * ax + ay * ay + az * az;
  const bb = bx * bx + by * by + bz * bz;
  const ab = ax * bx + ay * by + az * bz;
  const ar = ax * rx + ay * ry + az * rz;
  const br = bx * rx + by * ry + bz * rz;
  const squareness = aa * bb - ab * ab;
  if (squareness <= NEARLY_PARALLEL * aa * bb) return nearestOfEnds(a0, a1, b0, b1);
  let shareA = clamp((ab * br - ar * bb) / squareness);
  let shareB = (ab * shareA + br) / bb;
  if (shareB < 0 || shareB > 1) {
    shareB = clamp(shareB);
    shareA = clamp((ab * shareB - ar) / aa);
  }
  const dx = rx + ax * shareA - bx * shareB;
  const dy = ry + ay * shareA - by * shareB;
  const dz = rz + az * shareA - bz * shareB;
  return { shareA, shareB, distanceMm: Math.sqrt(dx * dx + dy * dy + dz * dz) };
}

/** The best of each end against the other segment: the answer for parallel segments and for points. */
function nearestOfEnds(a0: Vector, a1: Vector, b0: Vector, b1: Vector): NearestShares {
  const candidates: readonly NearestShares[] = [
    ...[0, 1].map((shareA) => onSegment(shareA === 0 ? a0 : a1, b0, b1, (shareB) => ({ shareA, shareB }))),
    ...[0, 1].map((shareB) => onSegment(shareB === 0 ? b0 : b1, a0, a1, (shareA) => ({ shareA, shareB }))),
  ];
  return candidates.reduce((best, candidate) => (candidate.distanceMm < best.distanceMm ? candidate : best));
}

function onSegment(
  point: Vector,
  start: Vector,
  end: Vector,
  shares: (share: number) => Omit<NearestShares, 'distanceMm'>,
): NearestShares {
  const along = subtract(end, start);
  const square = dot(along, along);
  const share = square === 0 ? 0 : clamp(dot(subtract(point, start), along) / square);
  const dx = start.x + along.x * share - point.x;
  const dy = start.y + along.y * share - point.y;
  const dz = start.z + along.z * share - point.z;
  return { ...shares(share), distanceMm: Math.sqrt(dx * dx + dy * dy + dz * dz) };
}

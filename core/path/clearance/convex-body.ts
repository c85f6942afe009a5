/** Obstacles as convex bodies: the point of one that is nearest to any point. */

import type { Obstacle } from '../../header/header.ts';
import { assertNever } from '../../result.ts';
import { mmOf } from '../../units/length.ts';
import { unitDirection, vectorOfPlace } from '../frame.ts';
import { dot, magnitude, subtract, type Vector } from '../vector.ts';

/** Three figures that are written anew at every call: a search asks a hundred thousand times. */
export interface Foot {
  x: number;
  y: number;
  z: number;
}

export interface ConvexBody {
  /**
   * How far a point is from the body, in millimetres: zero inside, negative behind a plane. `foot` becomes the nearest point of the
   * body, which is the point itself inside a box or cylinder.
   */
  readonly distanceMm: (point: Vector, foot: Foot) => number;
  /** No distance is less: 0 for what has an inside, where every place counts alike. */
  readonly leastMm: number;
}

/** Null for what is no body: a plane without direction, a cylinder without length. */
export function convexBody(obstacle: Obstacle): ConvexBody | null {
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

function setFoot(foot: Foot, x: number, y: number, z: number): void {
  foot.x = x;
  foot.y = y;
  foot.z = z;
}

function apartMm(point: Vector, foot: Foot): number {
  const dx = point.x - foot.x;
  const dy = point.y - foot.y;
  const dz = point.z - foot.z;
  return Math.sqrt(dx * dx + dy * dy + dz * dz);
}

const held = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

function boxBody(corner: Vector, opposite: Vector): ConvexBody {
  const low = {
    x: Math.min(corner.x, opposite.x),
    y: Math.min(corner.y, opposite.y),
    z: Math.min(corner.z, opposite.z),
  };
  const high = {
    x: Math.max(corner.x, opposite.x),
    y: Math.max(corner.y, opposite.y),
    z: Math.max(corner.z, opposite.z),
  };
  const distanceMm = (point: Vector, foot: Foot) => {
    setFoot(foot, held(point.x, low.x, high.x), held(point.y, low.y, high.y), held(point.z, low.z, high.z));
    return apartMm(point, foot);
  };
  return { distanceMm, leastMm: 0 };
}

/** A solid cylinder with flat ends. */
function cylinderBody(from: Vector, to: Vector, radiusMm: number): ConvexBody | null {
  const axis = unitDirection(subtract(to, from));
  if (axis === null) return null;
  const lengthMm = magnitude(subtract(to, from));
  const distanceMm = (point: Vector, foot: Foot) => {
    const dx = point.x - from.x;
    const dy = point.y - from.y;
    const dz = point.z - from.z;
    const along = dx * axis.x + dy * axis.y + dz * axis.z;
    const outX = dx - along * axis.x;
    const outY = dy - along * axis.y;
    const outZ = dz - along * axis.z;
    const outMm = Math.sqrt(outX * outX + outY * outY + outZ * outZ);
    const share = outMm > radiusMm ? radiusMm / outMm : 1;
    const kept = held(along, 0, lengthMm);
    setFoot(
      foot,
      from.x + kept * axis.x + share * outX,
      from.y + kept * axis.y + share * outY,
      from.z + kept * axis.z + share * outZ,
    );
    return apartMm(point, foot);
  };
  return { distanceMm, leastMm: 0 };
}

/** Everything behind a plane; its normal points to the side of the tubes. */
function planeBody(at: Vector, normal: Vector | null): ConvexBody | null {
  if (normal === null) return null;
  const offset = dot(at, normal);
  const distanceMm = (point: Vector, foot: Foot) => {
    const heightMm = dot(point, normal) - offset;
    setFoot(foot, point.x - heightMm * normal.x, point.y - heightMm * normal.y, point.z - heightMm * normal.z);
    return heightMm;
  };
  return { distanceMm, leastMm: Number.NEGATIVE_INFINITY };
}

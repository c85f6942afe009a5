/** Vectors in space, in millimetres or without unit, and the few operations that paths need. */

export interface Vector {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

export const ORIGIN: Vector = { x: 0, y: 0, z: 0 };

export function vector(x: number, y: number, z: number): Vector {
  return { x, y, z };
}

export function add(a: Vector, b: Vector): Vector {
  return { x: a.x + b.x, y: a.y + b.y, z: a.z + b.z };
}

export function subtract(a: Vector, b: Vector): Vector {
  return { x: a.x - b.x, y: a.y - b.y, z: a.z - b.z };
}

export function scale(a: Vector, by: number): Vector {
  return { x: a.x * by, y: a.y * by, z: a.z * by };
}

/** `a + b * by`: the commonest step along a path. */
export function addScaled(a: Vector, b: Vector, by: number): Vector {
  return { x: a.x + b.x * by, y: a.y + b.y * by, z: a.z + b.z * by };
}

export function dot(a: Vector, b: Vector): number {
  return a.x * b.x + a.y * b.y + a.z * b.z;
}

export function cross(a: Vector, b: Vector): Vector {
  return { x: a.y * b.z - a.z * b.y, y: a.z * b.x - a.x * b.z, z: a.x * b.y - a.y * b.x };
}

/** Length of the vector; safe from overflow and underflow. */
export function magnitude(a: Vector): number {
  return Math.hypot(a.x, a.y, a.z);
}

export function distance(a: Vector, b: Vector): number {
  return Math.hypot(a.x - b.x, a.y - b.y, a.z - b.z);
}

/** The vector at length 1. The zero vector gives NaN components: check first where it can occur. */
export function unit(a: Vector): Vector {
  return scale(a, 1 / magnitude(a));
}

export function isFiniteVector(a: Vector): boolean {
  return Number.isFinite(a.x) && Number.isFinite(a.y) && Number.isFinite(a.z);
}

/** The part of `a` that is square to the unit vector `axis`. */
export function squareTo(axis: Vector, a: Vector): Vector {
  return addScaled(a, axis, -dot(axis, a));
}

/**
 * `a` turned about the unit vector `axis` through the origin, right-hand rule (Rodrigues 1840).
 * `turnRad` in radians; the axis is trusted to be of length 1.
 */
export function turnAbout(axis: Vector, a: Vector, turnRad: number): Vector {
  const cosine = Math.cos(turnRad);
  const along = addScaled(scale(a, cosine), cross(axis, a), Math.sin(turnRad));
  return addScaled(along, axis, dot(axis, a) * (1 - cosine));
}

/** Angle between two vectors in radians, 0 to pi; exact near 0 and pi, where an arc cosine is not. */
export function angleBetweenRad(a: Vector, b: Vector): number {
  return Math.atan2(magnitude(cross(a, b)), dot(a, b));
}

/**
 * Angle in radians, over -pi to pi, by which `from` is turned about the unit vector `axis` to point as `to` does.
 * Positive by the right-hand rule. Both are taken square to the axis first.
 */
export function turnBetweenRad(axis: Vector, from: Vector, to: Vector): number {
  return Math.atan2(dot(axis, cross(from, to)), dot(squareTo(axis, from), to));
}

/** The same turn within (-180, 180] degrees. */
export function wrapDeg(angleDeg: number): number {
  const turn = angleDeg - 360 * Math.round(angleDeg / 360);
  return turn <= -180 ? turn + 360 : turn;
}

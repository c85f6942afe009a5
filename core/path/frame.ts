/** A place on a tube with its direction of travel and the side that its next bend is measured from. */

import type { Direction, Place, Pose } from '../header/header.ts';
import type { ProblemPath } from '../header/header-problem.ts';
import { failure, type Result, success } from '../result.ts';
import { radiansOf } from '../units/angle.ts';
import { type LengthUnit, lengthIn, mmOf } from '../units/length.ts';
import type { PoseProblem } from './path-problem.ts';
import {
  add,
  addScaled,
  cross,
  isFiniteVector,
  magnitude,
  scale,
  squareTo,
  turnAbout,
  unit,
  type Vector,
} from './vector.ts';

export interface Frame {
  /** On the centreline, in millimetres in the header frame. */
  readonly point: Vector;
  /** Direction of travel, length 1. */
  readonly tangent: Vector;
  /** Towards the centre of the last bend, or the port's up made square to the tangent before any; length 1. */
  readonly normal: Vector;
}

/** Below this sine (about 0.0006 degree) "up" cannot be told from the direction itself. */
const PARALLEL_SINE = 1e-5;

/**
 * Where a primary without a measured port is drawn from: the origin, pointing outboard (+y), up being +z.
 *
 * The header frame is right-handed: x forward, z up, y to the left-hand side of the vehicle, which is outboard for
 * ports on that side; ports of the other bank point to -y.
 */
export const DEFAULT_PORT: Frame = {
  point: { x: 0, y: 0, z: 0 },
  tangent: { x: 0, y: 1, z: 0 },
  normal: { x: 0, y: 0, z: 1 },
};

/** A place in millimetres. */
export function vectorOfPlace(place: Place): Vector {
  return { x: mmOf(place.x), y: mmOf(place.y), z: mmOf(place.z) };
}

/** A place in millimetres as one that is stored in `lengthUnit`. */
export function placeOfVector(point: Vector, lengthUnit: LengthUnit): Place {
  // Adding zero turns -0 into 0, which files and databases keep.
  const coordinate = (mm: number) => lengthIn(mm + 0, lengthUnit);
  return { x: coordinate(point.x), y: coordinate(point.y), z: coordinate(point.z) };
}

/** A frame as a pose that can be stored, with places in `lengthUnit`. */
export function poseOfFrame(frame: Frame, lengthUnit: LengthUnit): Pose {
  return { at: placeOfVector(frame.point, lengthUnit), direction: frame.tangent, up: frame.normal };
}

/** A direction at length 1; null when it is zero or not finite. Lengths as small as 1e-150 still count. */
export function unitDirection(direction: Direction): Vector | null {
  if (!isFiniteVector(direction)) return null;
  const largest = Math.max(Math.abs(direction.x), Math.abs(direction.y), Math.abs(direction.z));
  return largest < 1e-150 ? null : unit(scale(direction, 1 / largest));
}

/**
 * The frame that a pose describes: `up` is made square to the direction.
 *
 * `path` is where the pose sits in the document; problems point at the field below it. Refused: a coordinate that is
 * not finite, a zero or non-finite direction, and an up that is parallel to the direction within 0.0006 degree.
 */
export function frameOfPose(pose: Pose, path: ProblemPath = []): Result<Frame, PoseProblem> {
  const point = vectorOfPlace(pose.at);
  if (!isFiniteVector(point)) return failure({ kind: 'poseNotFinite', path: [...path, 'at'] });
  for (const field of ['direction', 'up'] as const) {
    if (!isFiniteVector(pose[field])) return failure({ kind: 'poseNotFinite', path: [...path, field] });
  }
  const tangent = unitDirection(pose.direction);
  if (tangent === null) return failure({ kind: 'poseZeroDirection', path: [...path, 'direction'] });
  const up = unitDirection(pose.up);
  if (up === null) return failure({ kind: 'poseZeroDirection', path: [...path, 'up'] });
  const square = squareTo(tangent, up);
  if (magnitude(square) < PARALLEL_SINE) return failure({ kind: 'poseUpParallel', path: [...path, 'up'] });
  // Twice, so that what rounding left along the tangent is gone as well.
  return success({ point, tangent, normal: unit(squareTo(tangent, unit(square))) });
}

/** The frame moved straight on by `lengthMm`. */
export function goStraight(frame: Frame, lengthMm: number): Frame {
  return { ...frame, point: addScaled(frame.point, frame.tangent, lengthMm) };
}

/** The frame with its normal turned about the tangent, right-hand rule along the direction of travel. */
export function clockBy(frame: Frame, clockingDeg: number): Frame {
  return { ...frame, normal: unit(turnAbout(frame.tangent, frame.normal, radiansOf(clockingDeg))) };
}

/** The centre about which a bend of this CLR in the plane of tangent and normal runs. */
export function bendCentre(frame: Frame, clrMm: number): Vector {
  return addScaled(frame.point, frame.normal, clrMm);
}

/** The frame after a bend of `clrMm` through `angleDeg` in the plane of tangent and normal. */
export function goRound(frame: Frame, clrMm: number, angleDeg: number): Frame {
  const turned = turnInPlane(frame, angleDeg);
  return { ...turned, point: addScaled(bendCentre(frame, clrMm), turned.normal, -clrMm) };
}

/** Tangent and normal turned in their own plane with the point kept, as at a mitre. */
export function turnInPlane(frame: Frame, angleDeg: number): Frame {
  const cosine = Math.cos(radiansOf(angleDeg));
  const sine = Math.sin(radiansOf(angleDeg));
  return {
    point: frame.point,
    tangent: unit(add(scale(frame.tangent, cosine), scale(frame.normal, sine))),
    normal: unit(add(scale(frame.normal, cosine), scale(frame.tangent, -sine))),
  };
}

/** The third axis of the frame: the axis that its bend turns about, right-hand rule. */
export function binormalOf(frame: Frame): Vector {
  return cross(frame.tangent, frame.normal);
}

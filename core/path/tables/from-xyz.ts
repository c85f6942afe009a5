/** The tube that an XYZ table of intersection points describes. */

import type { Piece } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import { DEFAULT_PORT, type Frame } from '../frame.ts';
import type { TableProblem } from '../path-problem.ts';
import {
  angleBetweenRad,
  cross,
  distance,
  magnitude,
  squareTo,
  subtract,
  turnBetweenRad,
  unit,
  type Vector,
} from '../vector.ts';
import type { TableNote, XyzPoint, XyzTable } from './bending-table.ts';
import { plannedBend, plannedStraight } from './lra.ts';
import { xyzProblem } from './table-limits.ts';

/** What an XYZ table describes: where the tube starts, and its pieces. */
export interface TubeFromXyz {
  readonly port: Frame;
  readonly pieces: readonly Piece[];
  readonly notes: readonly TableNote[];
}

/** Below this turn a point is on the straight between its neighbours. */
const STRAIGHT_ON_DEG = 0.001;
/** Above this the points run back on themselves. */
const TURNS_BACK_DEG = 179.99;
/** Rounding in the coordinates may leave a leg this much too short. */
const LEG_ROUNDING_MM = 1e-6;
/** A straight shorter than this is rounding, and is left out. */
const NO_LENGTH_MM = 1e-9;

interface Corner {
  readonly point: Vector;
  /** Number of the point in the table, from 1. */
  readonly number: number;
  readonly clrMm: number;
  readonly angleDeg: number;
  /** From the corner to the tangent points of its bend. */
  readonly setbackMm: number;
}

/**
 * The tube that an XYZ table describes, pieces in millimetres and planned.
 *
 * With unit vectors u along the legs: angle = angle(u_i, u_i+1), leg straight = |leg| - R_i tan(A_i/2) - R_i+1 tan(A_i+1/2),
 * rotation = angle of the plane normals u_i-1 x u_i and u_i x u_i+1 about u_i. The port's up is +z made square to the
 * first leg, or +x where the tube starts along z; the first bend's clocking is measured from it.
 * Refused, with the number of the point or leg: fewer than two points, the same point twice, points that run straight back
 * (a 180 degree bend has no intersection point), legs too short for their bends, a corner without CLR, more points than
 * `TABLE_POINTS_LIMIT`, figures past `LENGTH_LIMIT`.
 */
export function fromXyz(table: XyzTable, newId: () => string): Result<TubeFromXyz, TableProblem> {
  const { points } = table;
  const problem = xyzProblem(points);
  if (problem !== null) return failure(problem);
  const places = points.map(({ xMm, yMm, zMm }) => ({ x: xMm, y: yMm, z: zMm }));
  for (const [index, place] of places.entries()) {
    const before = places[index - 1];
    if (before !== undefined && distance(before, place) === 0) return failure({ kind: 'samePoint', point: index + 1 });
  }
  const corners = cornersOf(places, points);
  if (!corners.ok) return corners;
  return tubeFromCorners(corners.value, newId);
}

/** All points that the tube turns at, with both ends as corners that turn by nothing. */
function cornersOf(
  places: readonly Vector[],
  points: readonly XyzPoint[],
): Result<{ corners: readonly Corner[]; notes: readonly TableNote[] }, TableProblem> {
  const notes: TableNote[] = [];
  const corners: Corner[] = [];
  for (const [index, point] of places.entries()) {
    const number = index + 1;
    const before = corners.at(-1)?.point;
    const after = places[index + 1];
    if (before === undefined || after === undefined) {
      corners.push({ point, number, clrMm: 0, angleDeg: 0, setbackMm: 0 });
      continue;
    }
    const angleDeg = degreesOf(angleBetweenRad(subtract(point, before), subtract(after, point)));
    if (angleDeg < STRAIGHT_ON_DEG) {
      notes.push({ kind: 'pointOnStraight', point: number });
      continue;
    }
    if (angleDeg > TURNS_BACK_DEG) return failure({ kind: 'turnsBack', point: number });
    const clrMm = points[index]?.clrMm ?? null;
    if (clrMm === null || !(clrMm > 0 && Number.isFinite(clrMm)))
      return failure({ kind: 'radiusMissing', point: number });
    corners.push({ point, number, clrMm, angleDeg, setbackMm: clrMm * Math.tan(radiansOf(angleDeg) / 2) });
  }
  return success({ corners, notes });
}

function tubeFromCorners(
  { corners, notes }: { corners: readonly Corner[]; notes: readonly TableNote[] },
  newId: () => string,
): Result<TubeFromXyz, TableProblem> {
  const pieces: Piece[] = [];
  let port: Frame | null = null;
  let normal: Vector | null = null;
  for (const [index, corner] of corners.entries()) {
    const next = corners[index + 1];
    if (next === undefined) break;
    const along = unit(subtract(next.point, corner.point));
    const legMm = distance(corner.point, next.point);
    const neededMm = corner.setbackMm + next.setbackMm;
    const straightMm = legMm - neededMm;
    if (straightMm < -LEG_ROUNDING_MM) return failure({ kind: 'legTooShort', leg: index + 1, legMm, neededMm });
    if (straightMm > NO_LENGTH_MM) pieces.push(plannedStraight(straightMm, newId()));
    port ??= { point: corner.point, tangent: along, normal: upSquareTo(along) };
    normal ??= port.normal;
    const afterNext = corners[index + 2];
    if (afterNext === undefined) break;
    const inward = unit(squareTo(along, subtract(afterNext.point, next.point)));
    const rotationDeg = degreesOf(turnBetweenRad(along, normal, inward));
    pieces.push(plannedBend({ rotationDeg, angleDeg: next.angleDeg, clrMm: next.clrMm }, newId()));
    normal = normalAfter(along, inward, subtract(afterNext.point, next.point));
  }
  return success({ port: port ?? DEFAULT_PORT, pieces, notes });
}

/** The bend's normal at its end: in the bend's plane and square to the leg that it leaves along. */
function normalAfter(along: Vector, inward: Vector, leaving: Vector): Vector {
  return unit(cross(unit(cross(along, inward)), unit(leaving)));
}

function upSquareTo(tangent: Vector): Vector {
  const up = squareTo(tangent, { x: 0, y: 0, z: 1 });
  return unit(magnitude(up) > 1e-3 ? up : squareTo(tangent, { x: 1, y: 0, z: 0 }));
}

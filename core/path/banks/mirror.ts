/** The other hand: places, poses, pieces, primaries and collectors reflected in a plane. */

import type { Collector, Direction, Inlet, Obstacle, Piece, Place, Pose, Primary } from '../../header/header.ts';
import { assertNever, failure, type Result, success } from '../../result.ts';
import { type Length, lengthIn, mmOf, withoutNoise } from '../../units/length.ts';
import { unitDirection, vectorOfPlace } from '../frame.ts';
import type { PathProblem } from '../path-problem.ts';
import { dot, isFiniteVector, subtract, type Vector } from '../vector.ts';

export interface MirrorPlane {
  /** Any place on the plane. */
  readonly at: Place;
  /** Square to the plane; any length but zero. */
  readonly normal: Direction;
}

/** The middle of the vehicle: the usual plane between two banks. */
export const VEHICLE_MIDDLE: MirrorPlane = {
  at: { x: { value: 0, unit: 'mm' }, y: { value: 0, unit: 'mm' }, z: { value: 0, unit: 'mm' } },
  normal: { x: 0, y: 1, z: 0 },
};

/** A plane in millimetres that has been found sound. */
export interface SoundPlane {
  readonly point: Vector;
  readonly normal: Vector;
}

/** The plane in millimetres with its normal at length 1; a problem where it is none. */
export function soundPlane(plane: MirrorPlane): Result<SoundPlane, PathProblem> {
  const point = vectorOfPlace(plane.at);
  if (!isFiniteVector(point)) return failure({ kind: 'poseNotFinite', path: ['plane', 'at'] });
  if (!isFiniteVector(plane.normal)) return failure({ kind: 'poseNotFinite', path: ['plane', 'normal'] });
  const normal = unitDirection(plane.normal);
  return normal === null
    ? failure({ kind: 'poseZeroDirection', path: ['plane', 'normal'] })
    : success({ point, normal });
}

/** Adding zero turns -0 into 0, which files and databases keep. */
const withoutMinusZero = (value: number) => value + 0;

function mirrorDirection(direction: Direction, { normal }: SoundPlane): Direction {
  const twice = 2 * dot(direction, normal);
  return {
    x: withoutMinusZero(direction.x - twice * normal.x),
    y: withoutMinusZero(direction.y - twice * normal.y),
    z: withoutMinusZero(direction.z - twice * normal.z),
  };
}

/** Coordinates that the mirror does not move stay exactly as typed; those that only change sign do just that. */
function mirrorPlace(place: Place, plane: SoundPlane): Place {
  const twice = 2 * dot(subtract(vectorOfPlace(place), plane.point), plane.normal);
  const moved = (coordinate: Length, part: number): Length => {
    const byMm = -twice * part;
    if (byMm === 0) return coordinate;
    const { value, unit } = coordinate;
    const isSignOnly = byMm === -2 * mmOf(coordinate);
    const mirrored = isSignOnly ? -value : withoutNoise(value + lengthIn(byMm, unit).value);
    return { value: withoutMinusZero(mirrored), unit };
  };
  const { normal } = plane;
  return { x: moved(place.x, normal.x), y: moved(place.y, normal.y), z: moved(place.z, normal.z) };
}

function mirrorPose(pose: Pose, plane: SoundPlane): Pose {
  return {
    at: mirrorPlace(pose.at, plane),
    direction: mirrorDirection(pose.direction, plane),
    up: mirrorDirection(pose.up, plane),
  };
}

/** The piece of the other hand: a clocking changes its sign, everything else stays. */
export function mirrorPiece<Kind extends Piece>(piece: Kind): Kind {
  if (piece.kind === 'straight' || piece.clockingDeg === null) return piece;
  return { ...piece, clockingDeg: withoutMinusZero(-piece.clockingDeg) };
}

/** The primary of the other hand: its port's pose is reflected and its clockings change sign; pieces without clocking stay. */
export function mirroredPrimary(primary: Primary, plane: SoundPlane): Primary {
  const port = primary.port === null ? null : mirrorPose(primary.port, plane);
  return { ...primary, port, pieces: primary.pieces.map((piece) => mirrorPiece(piece)) };
}

function mirroredInlet(inlet: Inlet, plane: SoundPlane): Inlet {
  if (inlet.place === null || inlet.place.kind === 'endOf') return inlet;
  return { ...inlet, place: { kind: 'pose', pose: mirrorPose(inlet.place.pose, plane) } };
}

/** The collector with its measured inlets reflected; one that is the end of a primary stays so. */
export function mirroredCollector(collector: Collector, plane: SoundPlane): Collector {
  return { ...collector, inlets: collector.inlets.map((inlet) => mirroredInlet(inlet, plane)) };
}

/** The obstacle reflected; a plane's normal goes on pointing to the side where the tubes are. */
export function mirroredObstacle(obstacle: Obstacle, plane: SoundPlane): Obstacle {
  switch (obstacle.kind) {
    case 'box': {
      const [corner, opposite] = [mirrorPlace(obstacle.corner, plane), mirrorPlace(obstacle.opposite, plane)];
      return { ...obstacle, corner, opposite };
    }
    case 'cylinder':
      return { ...obstacle, from: mirrorPlace(obstacle.from, plane), to: mirrorPlace(obstacle.to, plane) };
    case 'plane':
      return {
        ...obstacle,
        at: mirrorPlace(obstacle.at, plane),
        normal: mirrorDirection(obstacle.normal, plane),
      };
    default:
      return assertNever(obstacle);
  }
}

/** Poses by the dozen: ports in a row along a head, and the inlets of a collector from tube and pattern. */

import type { Direction, Pose } from '../../header/header.ts';
import { failure, type Result, success } from '../../result.ts';
import { type Length, mmOf } from '../../units/length.ts';
import { binormalOf, frameOfPose, placeOfVector, unitDirection } from '../frame.ts';
import type { PathProblem } from '../path-problem.ts';
import { addScaled, scale, type Vector } from '../vector.ts';

export interface PortRow {
  /** The first port; the others have its direction and up. */
  readonly first: Pose;
  /** Which way the row runs, usually along the head. */
  readonly along: Direction;
  /** From each port to the next, centre to centre: as many as there are further ports. They need not be equal. */
  readonly spacings: readonly Length[];
}

/** The poses of a row of ports, the first one included; places are stored in the unit of the first port's x. */
export function portRow(row: PortRow): Result<readonly Pose[], PathProblem> {
  const first = frameOfPose(row.first, ['first']);
  if (!first.ok) return first;
  const along = unitDirection(row.along);
  if (along === null) return failure({ kind: 'poseZeroDirection', path: ['along'] });
  const poses: Pose[] = [row.first];
  let fromFirstMm = 0;
  for (const [index, spacing] of row.spacings.entries()) {
    fromFirstMm += mmOf(spacing);
    if (!Number.isFinite(fromFirstMm)) return failure({ kind: 'poseNotFinite', path: ['spacings', index] });
    const point = addScaled(first.value.point, along, fromFirstMm);
    poses.push({ ...row.first, at: placeOfVector(point, row.first.at.x.unit) });
  }
  return success(poses);
}

/** How the inlets of a collector lie, seen along the direction of travel. */
export type InletPattern = 'sideBySide' | 'triangle' | 'square';

export interface InletLayout {
  readonly pattern: InletPattern;
  /** 2, 3 or 4 side by side; 3 in a triangle; 4 in a square. */
  readonly count: number;
  readonly od: Length;
  /** Between the outsides of neighbouring tubes; zero where they touch. */
  readonly gap: Length;
  /** The middle of the pattern, with the direction of travel into the collector. */
  readonly centre: Pose;
}

/**
 * The poses of a collector's inlets, all with the direction and up of the centre. Neighbours are OD + gap apart, centre
 * to centre. Order: seen along the direction of travel with up upwards, side by side runs from left to right; a triangle
 * starts at the top, a square at the top right, and both go on clockwise.
 */
export function inletPoses(layout: InletLayout): Result<readonly Pose[], PathProblem> {
  const centre = frameOfPose(layout.centre, ['centre']);
  if (!centre.ok) return centre;
  const pitchMm = mmOf(layout.od) + mmOf(layout.gap);
  if (!Number.isFinite(pitchMm)) return failure({ kind: 'poseNotFinite', path: ['od'] });
  const places = patternPlaces(layout.pattern, layout.count);
  if (places === null) return failure({ kind: 'patternCount', pattern: layout.pattern, count: layout.count });
  const { point, normal } = centre.value;
  const right: Vector = binormalOf(centre.value);
  return success(
    places.map(([rightward, upward]) => {
      const offset = addScaled(scale(right, rightward * pitchMm), normal, upward * pitchMm);
      return { ...layout.centre, at: placeOfVector(addScaled(point, offset, 1), layout.centre.at.x.unit) };
    }),
  );
}

/** Centres in pitches as [right, up] about the middle of the pattern; null for a count that the pattern does not have. */
function patternPlaces(pattern: InletPattern, count: number): readonly (readonly [number, number])[] | null {
  if (pattern === 'sideBySide') {
    if (!(Number.isInteger(count) && count >= 2 && count <= 4)) return null;
    return Array.from({ length: count }, (_, index) => [index - (count - 1) / 2, 0] as const);
  }
  if (pattern === 'triangle') {
    if (count !== 3) return null;
    const topUp = 1 / Math.sqrt(3);
    return [
      [0, topUp],
      [0.5, -topUp / 2],
      [-0.5, -topUp / 2],
    ];
  }
  if (count !== 4) return null;
  return [
    [0.5, 0.5],
    [0.5, -0.5],
    [-0.5, -0.5],
    [-0.5, 0.5],
  ];
}

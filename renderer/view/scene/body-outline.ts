/** The edges of obstacles and openings as runs of points in space. */

import {
  add,
  addScaled,
  assertNever,
  cross,
  distance,
  dot,
  type Frame,
  magnitude,
  scale,
  squareTo,
  subtract,
  unit,
  type Vector,
} from '../../../core/index.ts';
import type { Bounds, SceneBody, SceneMouth } from './scene.ts';
import { AROUND, ringPoints } from './tube-surface.ts';

type Run = readonly Vector[];

/** A frame whose tangent is the unit vector given; which way its normal points does not matter. */
export function frameAlong(point: Vector, tangent: Vector): Frame {
  const aside = Math.abs(tangent.z) < 0.9 ? { x: 0, y: 0, z: 1 } : { x: 1, y: 0, z: 0 };
  return { point, tangent, normal: unit(squareTo(tangent, aside)) };
}

/** The four corners of the part of a plane that lies by the header: as large as the bounds reach. */
export function planePatch(
  at: Vector,
  normal: Vector,
  bounds: Bounds | null,
): readonly [Vector, Vector, Vector, Vector] {
  const middle = bounds === null ? at : scale(add(bounds.low, bounds.high), 0.5);
  const reachMm = bounds === null ? 150 : Math.max(50, distance(bounds.low, bounds.high) / 2);
  const centre = addScaled(middle, normal, dot(subtract(at, middle), normal));
  const frame = frameAlong(centre, normal);
  const aside = cross(normal, frame.normal);
  const corner = (across: number, beside: number) =>
    addScaled(addScaled(centre, frame.normal, across * reachMm), aside, beside * reachMm);
  return [corner(1, 1), corner(1, -1), corner(-1, -1), corner(-1, 1)];
}

/** All edges of a body, each as a run of points. `bounds` say how much of a plane to show. */
export function bodyOutline(body: SceneBody, bounds: Bounds | null): readonly Run[] {
  switch (body.kind) {
    case 'box':
      return boxEdges(body.low, body.high);
    case 'cylinder':
      return cylinderEdges(body.from, body.to, body.radiusMm);
    case 'plane': {
      const patch = planePatch(body.at, body.normal, bounds);
      return [[...patch, patch[0]]];
    }
    default:
      return assertNever(body);
  }
}

function boxEdges(low: Vector, high: Vector): readonly Run[] {
  const rectangle = (z: number): Run => [
    { x: low.x, y: low.y, z },
    { x: high.x, y: low.y, z },
    { x: high.x, y: high.y, z },
    { x: low.x, y: high.y, z },
    { x: low.x, y: low.y, z },
  ];
  const [bottom, top] = [rectangle(low.z), rectangle(high.z)];
  const posts = bottom.slice(0, 4).map((corner): Run => [corner, { ...corner, z: high.z }]);
  return [bottom, top, ...posts];
}

function cylinderEdges(from: Vector, to: Vector, radiusMm: number): readonly Run[] {
  const axis = subtract(to, from);
  if (magnitude(axis) === 0) return [];
  const rings = [from, to].map((point) => ringPoints(frameAlong(point, unit(axis)), radiusMm));
  const [first = [], second = []] = rings;
  const sides = [0, 1, 2, 3].flatMap((quarter): readonly Run[] => {
    const index = (quarter * AROUND) / 4;
    const [a, b] = [first[index], second[index]];
    return a && b ? [[a, b]] : [];
  });
  return [...rings, ...sides];
}

/** An opening: its ring with a second one around it, and the way of travel through it. */
export function mouthOutline({ frame, odMm, kind }: SceneMouth): readonly Run[] {
  const ring = ringPoints(frame, odMm / 2);
  const outer = ringPoints(frame, kind === 'port' ? odMm * 0.75 : odMm * 0.56);
  const tip = addScaled(frame.point, frame.tangent, odMm * 0.9);
  const barb = (side: number) =>
    addScaled(addScaled(tip, frame.tangent, -odMm * 0.2), frame.normal, side * odMm * 0.12);
  return [ring, outer, [frame.point, tip], [barb(1), tip, barb(-1)]];
}

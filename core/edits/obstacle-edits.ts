/** Edits that put obstacles where tubes must keep clear, change them and take them away. */

import type { Header, Obstacle, Place } from '../header/header.ts';
import { assertNever } from '../result.ts';
import type { LengthUnit } from '../units/length.ts';
import type { Edit } from './edit.ts';

/** Each kind of obstacle with its name, in the order in which they are offered. */
export const OBSTACLE_KINDS: readonly { readonly kind: Obstacle['kind']; readonly name: string }[] = [
  { kind: 'box', name: 'Box' },
  { kind: 'cylinder', name: 'Cylinder' },
  { kind: 'plane', name: 'Plane' },
];

/** A new obstacle of a size that can be seen, below and outboard of the ports, to be typed over. */
export function addObstacleEdit(
  header: Header,
  kind: Obstacle['kind'],
  { id, unit }: { readonly id: string; readonly unit: LengthUnit },
): Edit {
  const obstacle = firstObstacle(kind, { id, name: nextName(kind, header) }, unit);
  return { kind: 'addObstacle', obstacle, at: header.obstacles.length };
}

/** The obstacle as it shall be, in the place of the one with its id. */
export function replaceObstacleEdit(obstacle: Obstacle): Edit {
  return { kind: 'replaceObstacle', obstacle };
}

export function removeObstacleEdit(obstacleId: string): Edit {
  return { kind: 'removeObstacle', obstacleId };
}

/** A length that can be seen beside a header. */
const STEP: Readonly<Record<LengthUnit, number>> = { in: 4, mm: 100 };

function firstObstacle(
  kind: Obstacle['kind'],
  common: { readonly id: string; readonly name: string },
  unit: LengthUnit,
): Obstacle {
  const step = STEP[unit];
  const place = (x: number, y: number, z: number): Place => ({
    x: { value: x * step, unit },
    y: { value: y * step, unit },
    z: { value: z * step, unit },
  });
  switch (kind) {
    case 'box':
      return { kind, ...common, corner: place(-1, 4, -2), opposite: place(1, 5, -1) };
    case 'cylinder':
      return { kind, ...common, from: place(-2, 4, -1), to: place(2, 4, -1), diameter: { value: step / 4, unit } };
    case 'plane':
      return { kind, ...common, at: place(0, 5, 0), normal: { x: 0, y: -1, z: 0 } };
    default:
      return assertNever(kind);
  }
}

/** "Box 1", or the first such name that is free. */
function nextName(kind: Obstacle['kind'], header: Header): string {
  const word = OBSTACLE_KINDS.find((known) => known.kind === kind)?.name ?? kind;
  const taken = new Set(header.obstacles.map(({ name }) => name));
  let number = 1;
  while (taken.has(`${word} ${number}`)) number += 1;
  return `${word} ${number}`;
}

/** Obstacles as they are first put in place, for the user to type over. */

import { assertNever, type Header, type LengthUnit, type Obstacle, type Place } from '../../../core/index.ts';

export type ObstacleKind = Obstacle['kind'];

export const OBSTACLE_KINDS: readonly { readonly kind: ObstacleKind; readonly name: string; readonly add: string }[] = [
  { kind: 'box', name: 'Box', add: 'Add box' },
  { kind: 'cylinder', name: 'Cylinder', add: 'Add cylinder' },
  { kind: 'plane', name: 'Plane', add: 'Add plane' },
];

/** A length that can be seen beside a header. */
const STEP: Readonly<Record<LengthUnit, number>> = { in: 4, mm: 100 };

/** A new obstacle of a size that can be seen, below and outboard of the ports. */
export function newObstacle(
  kind: ObstacleKind,
  header: Header,
  { id, unit }: { id: string; unit: LengthUnit },
): Obstacle {
  const step = STEP[unit];
  const place = (x: number, y: number, z: number): Place => ({
    x: { value: x * step, unit },
    y: { value: y * step, unit },
    z: { value: z * step, unit },
  });
  const name = nextName(kind, header);
  switch (kind) {
    case 'box':
      return { kind, id, name, corner: place(-1, 4, -2), opposite: place(1, 5, -1) };
    case 'cylinder':
      return { kind, id, name, from: place(-2, 4, -1), to: place(2, 4, -1), diameter: { value: step / 4, unit } };
    case 'plane':
      return { kind, id, name, at: place(0, 5, 0), normal: { x: 0, y: -1, z: 0 } };
    default:
      return assertNever(kind);
  }
}

function nextName(kind: ObstacleKind, header: Header): string {
  const word = OBSTACLE_KINDS.find((known) => known.kind === kind)?.name ?? kind;
  const taken = new Set(header.obstacles.map(({ name }) => name));
  let number = 1;
  while (taken.has(`${word} ${number}`)) number += 1;
  return `${word} ${number}`;
}

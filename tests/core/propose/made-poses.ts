/** Pairs of poses for the tests of proposals, from a seed: as on a header, anywhere, and close together. */

import type { Header, Inlet, Obstacle, Pose, Primary, Settings } from '../../../core/header/header.ts';
import { DEFAULT_SETTINGS, newHeader } from '../../../core/header/new-header.ts';
import { type Frame, frameOfPose } from '../../../core/path/frame.ts';
import { add, scale, unit, type Vector } from '../../../core/path/vector.ts';
import type { TubeEnds } from '../../../core/propose/joints/tube-shape.ts';
import type { StockItem } from '../../../core/stock/stock-item.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { foundValue, poseAt, primaryOf, randomDirection } from '../path/made-primaries.ts';

export interface PosePair {
  readonly port: Pose;
  readonly inlet: Pose;
}

type Random = () => number;

/** Any direction within so much of another one. */
function near(random: Random, direction: Vector, spread: number): Vector {
  return unit(add(direction, scale(unit(randomDirection(random)), spread * random())));
}

/** Any up that does not run along the direction. */
function poseOf(random: Random, at: Vector, direction: Vector): Pose {
  return poseAt(
    at,
    direction,
    add(scale(unit(randomDirection(random)), 0.3), { x: -direction.y, y: direction.x, z: 0.9 }),
  );
}

const ORIGIN = { x: 0, y: 0, z: 0 };
const OUTBOARD = { x: 0, y: 1, z: 0 };
const DOWN_AND_BACK = { x: -0.5, y: 0, z: -0.85 };

/** A port that points outboard, and an inlet below and somewhere along the head that points down and back. */
export function headerLike(random: Random): PosePair {
  const at = { x: -350 + 500 * random(), y: 60 + 160 * random(), z: -200 - 220 * random() };
  return {
    port: poseOf(random, ORIGIN, near(random, OUTBOARD, 0.4)),
    inlet: poseOf(random, at, near(random, DOWN_AND_BACK, 0.5)),
  };
}

/** Any two directions, 250 to 700 mm apart. */
export function anywhere(random: Random): PosePair {
  return apart(random, 250, 700);
}

/** Any two directions, no farther apart than a bend or two is wide. */
export function tight(random: Random): PosePair {
  return apart(random, 120, 250);
}

function apart(random: Random, fromMm: number, toMm: number): PosePair {
  const at = scale(unit(randomDirection(random)), fromMm + (toMm - fromMm) * random());
  return {
    port: poseOf(random, ORIGIN, unit(randomDirection(random))),
    inlet: poseOf(random, at, unit(randomDirection(random))),
  };
}

export const SOURCES = { headerLike, anywhere, tight } as const;

export function frameOf(pose: Pose): Frame {
  return foundValue(frameOfPose(pose));
}

export function endsOf({ port, inlet }: PosePair): TubeEnds {
  return { start: frameOf(port), wanted: frameOf(inlet) };
}

export const PROPOSE_SETTINGS: Settings = {
  ...DEFAULT_SETTINGS,
  closure: { gap: millimetres(0.5), tiltDeg: 0.25 },
};

/** CLRs of 3 and 4 in, as the measures want them. */
export const CLRS = [inches(3), inches(4)];

export interface MadeHeader {
  readonly settings?: Partial<Settings>;
  readonly others?: readonly Primary[];
  readonly obstacles?: readonly Obstacle[];
  readonly pieces?: Primary['pieces'];
  readonly slipMm?: number;
}

/** A header with one primary, `own`, whose port and inlet these are. */
export function headerWith({ port, inlet }: PosePair, made: MadeHeader = {}): Header {
  const slip = { deeper: millimetres(made.slipMm ?? 0), shallower: millimetres(made.slipMm ?? 0) };
  const own: Inlet = { id: 'inlet', name: 'A', place: { kind: 'pose', pose: inlet }, slip };
  const primary = primaryOf(made.pieces ?? [], { id: 'own', name: '1', port, inletId: 'inlet' });
  return {
    ...newHeader({ id: 'header', name: 'Proposals' }),
    settings: { ...PROPOSE_SETTINGS, ...made.settings },
    primaries: [primary, ...(made.others ?? [])],
    collectors: [{ id: 'collector', name: 'C', inlets: [own] }],
    obstacles: made.obstacles ?? [],
  };
}

/** Bends of one tube on the shelf. */
export function bendsOnShelf(
  rows: readonly (readonly [clrIn: number, angleDeg: number, count: number])[],
): readonly StockItem[] {
  return rows.map(
    ([clrIn, angleDeg, count], index): StockItem => ({
      ...DEFAULT_SETTINGS.tube,
      kind: 'bend',
      id: `shelf-${index}`,
      count,
      note: '',
      clr: inches(clrIn),
      angleDeg,
      legs: [inches(4), inches(4)],
    }),
  );
}

/** Primaries for the path tests: built by hand, or at random from a printed seed. */

import type {
  Bend,
  Header,
  PieCutBend,
  Piece,
  Pose,
  Primary,
  Settings,
  Straight,
} from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import type { TubePath } from '../../../core/path/trace-primary.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import type { Vector } from '../../../core/path/vector.ts';
import type { Result } from '../../../core/result.ts';
import { millimetres } from '../../../core/units/length.ts';

let made = 0;

function common() {
  made += 1;
  return { id: `piece-${made}`, state: 'tacked', locked: false, note: '' } as const;
}

export function straight(lengthMm: number): Straight {
  return { kind: 'straight', ...common(), length: millimetres(lengthMm) };
}

export function bend(clrMm: number, angleDeg: number, clockingDeg: number | null): Bend {
  return { kind: 'bend', ...common(), clr: millimetres(clrMm), angleDeg, clockingDeg };
}

export function pieCut(clrMm: number, angleDeg: number, clockingDeg: number | null, pies: number): PieCutBend {
  return { ...bend(clrMm, angleDeg, clockingDeg), kind: 'pieCut', pies };
}

export function primaryOf(pieces: readonly Piece[], fields: Partial<Primary> = {}): Primary {
  return { id: 'primary', name: '1', tube: null, port: null, inletId: null, pieces, ...fields };
}

export function poseAt(at: Vector, direction: Vector, up: Vector): Pose {
  return { at: { x: millimetres(at.x), y: millimetres(at.y), z: millimetres(at.z) }, direction, up };
}

export const UP_Z: Vector = { x: 0, y: 0, z: 1 };

/** Port at the origin that points along x, up being z. */
export const ALONG_X = poseAt({ x: 0, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, UP_Z);

export function headerOf(
  primaries: readonly Primary[],
  fields: Partial<Header> = {},
  settings: Partial<Settings> = {},
): Header {
  const header = newHeader({ id: 'header', name: 'Path test' });
  return { ...header, primaries, ...fields, settings: { ...header.settings, ...settings } };
}

/** The value of a result that the test takes to be there. */
export function foundValue<Value>(result: Result<Value, unknown>): Value {
  if (!result.ok) throw new Error(`Refused: ${JSON.stringify(result.problems)}`);
  return result.value;
}

/** The first problem of a result that the test takes to be refused. */
export function problemOf<Trouble>(result: Result<unknown, Trouble>): Trouble {
  const [first] = result.ok ? [] : result.problems;
  if (first === undefined) throw new Error('Not refused');
  return first;
}

export function pathOf(pieces: readonly Piece[], port: Pose | null = ALONG_X): TubePath {
  return foundValue(tracePrimary(primaryOf(pieces), port));
}

/** Numbers from 0 to 1, the same for the same seed (linear congruential generator of Numerical Recipes, from memory). */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

export interface RandomShape {
  readonly pieces: number;
  readonly random: () => number;
  /** Pie-cut bends among the others; yes unless said otherwise. */
  readonly withPies?: boolean;
  readonly largestDeg?: number;
}

/** A primary of straights and bends in any order and any clocking, at a random port. */
export function randomPrimary({ pieces, random, withPies = true, largestDeg = 180 }: RandomShape): Primary {
  const made = Array.from({ length: pieces }, (): Piece => {
    if (random() < 0.5) return straight(random() < 0.1 ? 0 : random() * 250);
    const shape = [30 + random() * 120, 1 + random() * (largestDeg - 1), random() * 360 - 180] as const;
    return withPies && random() < 0.2 ? pieCut(...shape, 2 + Math.floor(random() * 8)) : bend(...shape);
  });
  return primaryOf(made, { port: randomPose(random) });
}

export function randomPose(random: () => number): Pose {
  const place = { x: random() * 600 - 300, y: random() * 600 - 300, z: random() * 600 - 300 };
  return poseAt(place, randomDirection(random), randomDirection(random));
}

/** Any direction, at any length from 0.1 to 1.7. */
export function randomDirection(random: () => number): Vector {
  for (;;) {
    const found = { x: random() * 2 - 1, y: random() * 2 - 1, z: random() * 2 - 1 };
    if (Math.hypot(found.x, found.y, found.z) > 0.1) return found;
  }
}

/** Directions as they are typed and shown: a word, a word tilted towards another, or three numbers. */

import type { Direction } from '../../header/header.ts';
import type { ProblemPath } from '../../header/header-problem.ts';
import { shortened } from '../../header/names.ts';
import type { Problem } from '../../problem.ts';
import { failure, type Result, success } from '../../result.ts';
import { degreesOf, radiansOf } from '../../units/angle.ts';
import { parseAngle } from '../../units/parse-angle.ts';
import { addScaled, dot, magnitude, scale, subtract } from '../vector.ts';

export type DirectionWord = 'outboard' | 'inboard' | 'down' | 'up' | 'back' | 'forward';

export const DIRECTIONS: readonly (readonly [word: DirectionWord, direction: Direction])[] = [
  ['outboard', { x: 0, y: 1, z: 0 }],
  ['inboard', { x: 0, y: -1, z: 0 }],
  ['down', { x: 0, y: 0, z: -1 }],
  ['up', { x: 0, y: 0, z: 1 }],
  ['back', { x: -1, y: 0, z: 0 }],
  ['forward', { x: 1, y: 0, z: 0 }],
];

const BY_WORD: ReadonlyMap<string, Direction> = new Map(DIRECTIONS);

/** The word for exactly this direction; null when there is none. */
export function directionWord({ x, y, z }: Direction): DirectionWord | null {
  return DIRECTIONS.find(([, other]) => other.x === x && other.y === y && other.z === z)?.[0] ?? null;
}

/** Reads "outboard", "outboard 20 down" (tilted by 20 degrees towards down) or "0, 1, -0.5". */
export function parseDirection(text: string, path: ProblemPath): Result<Direction, Problem> {
  const words = text.trim().toLowerCase();
  const found = words === '' ? 'nothing' : shortened(words, 40);
  const expected = 'a direction such as outboard, outboard 20 down, or 0, 1, 0';
  return tilted(words) ?? numbers(words) ?? failure({ kind: 'invalidValue', path, expected, found });
}

function tilted(words: string): Result<Direction, Problem> | null {
  const [, main = '', angle, other] = /^([a-z]+)(?:\s+(\S+)\s+([a-z]+))?$/.exec(words) ?? [];
  const from = BY_WORD.get(main);
  if (from === undefined) return null;
  if (angle === undefined || other === undefined) return success(from);
  const towards = BY_WORD.get(other);
  const tilt = parseAngle(angle);
  if (towards === undefined || dot(from, towards) !== 0) return null;
  return tilt.ok ? success(between(from, towards, tilt.value)) : tilt;
}

function between(from: Direction, towards: Direction, tiltDeg: number): Direction {
  const { x, y, z } = addScaled(scale(from, Math.cos(radiansOf(tiltDeg))), towards, Math.sin(radiansOf(tiltDeg)));
  // Adding zero turns -0 into 0, which files and databases keep.
  return { x: x + 0, y: y + 0, z: z + 0 };
}

/** A double above a millionth is written without an exponent, with 23 decimals at most. */
const NUMBER = /^[+-]?(?:\d{1,12}(?:\.\d{0,24})?|\.\d{1,24})(?:e[+-]?\d{1,2})?$/;

function numbers(words: string): Result<Direction, Problem> | null {
  const parts = words.split(/\s*[,;]\s*|\s+/).filter((part) => part !== '');
  if (parts.length !== 3 || !parts.every((part) => NUMBER.test(part))) return null;
  const [x = 0, y = 0, z = 0] = parts.map(Number);
  return success({ x: x + 0, y: y + 0, z: z + 0 });
}

/** Text that reads back to the same direction to within 1e-12: words where they say it, else its three numbers. */
export function formatDirection(direction: Direction): string {
  return directionWord(direction) ?? tiltWords(direction) ?? [direction.x, direction.y, direction.z].join(', ');
}

/** Angles typed have at most this many decimals. */
const TILT_DECIMALS = 1e4;

function tiltWords(direction: Direction): string | null {
  for (const [main, from] of DIRECTIONS) {
    const along = dot(direction, from);
    if (along < Math.SQRT1_2 - 1e-9) continue;
    for (const [other, towards] of DIRECTIONS) {
      const beside = dot(direction, towards);
      if (beside <= 0 || dot(from, towards) !== 0) continue;
      const tiltDeg = Math.round(degreesOf(Math.atan2(beside, along)) * TILT_DECIMALS) / TILT_DECIMALS;
      const missed = magnitude(subtract(between(from, towards, tiltDeg), direction));
      if (missed < 1e-12) return `${main} ${tiltDeg} ${other}`;
    }
  }
  return null;
}

/** An up across the direction: up itself, or forward for a tube that runs up or down. */
export function upFor(direction: Direction): Direction {
  return Math.abs(direction.z) > 0.9 * magnitude(direction) ? { x: 1, y: 0, z: 0 } : { x: 0, y: 0, z: 1 };
}

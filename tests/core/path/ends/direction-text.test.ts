/** Directions as typed. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  DIRECTIONS,
  directionWord,
  formatDirection,
  parseDirection,
  upFor,
} from '../../../../core/path/ends/direction-text.ts';
import { expectWithin } from '../../../tolerance.ts';

const read = (text: string) => parseDirection(text, ['direction']);

describe('reading', () => {
  test.each(DIRECTIONS)('%s is the word for its direction', (word, direction) => {
    expect(read(word)).toEqual({ ok: true, value: direction });
    expect(read(` ${word.toUpperCase()} `)).toEqual({ ok: true, value: direction });
    expect(directionWord(direction)).toBe(word);
  });

  test.each([
    ['0, 1, 0', { x: 0, y: 1, z: 0 }],
    ['0 1 -0.5', { x: 0, y: 1, z: -0.5 }],
    ['1;2;3e-2', { x: 1, y: 2, z: 0.03 }],
    ['-0, 1, 0', { x: 0, y: 1, z: 0 }],
    ['0, 0, 0', { x: 0, y: 0, z: 0 }],
  ])('%s', (text, direction) => {
    expect(read(text)).toEqual({ ok: true, value: direction });
  });

  test('outboard 30 down is 30 degrees below outboard', () => {
    const tilted = read('outboard 30 down');
    if (!tilted.ok) throw new Error('it reads');
    expectWithin(tilted.value.x, 0, 0);
    expectWithin(tilted.value.y, Math.sqrt(3) / 2, 1e-15);
    expectWithin(tilted.value.z, -0.5, 1e-15);
  });

  test.each([
    '',
    'sideways',
    '1, 2',
    '1, 2, 3, 4',
    '1, 2, x',
    'Infinity 0 0',
    'outboard 20',
    'up 20 down',
    'up 20 up',
    'outboard x down',
    '1e999 0 0',
  ])('"%s" is refused with what would do', (text) => {
    const refused = read(text);
    expect(refused.ok).toBe(false);
    expect(!refused.ok && refused.problems.length).toBe(1);
  });
});

describe('showing', () => {
  test('what is shown reads back to the same direction', () => {
    const part = fc.double({ min: -1e6, max: 1e6, noNaN: true });
    fc.assert(
      fc.property(fc.record({ x: part, y: part, z: part }), (direction) => {
        const again = read(formatDirection(direction));
        if (!again.ok) {
          // Numbers smaller than anyone types have longer exponents than are read.
          expect(Object.values(direction).some((value) => value !== 0 && Math.abs(value) < 1e-90)).toBe(true);
          return;
        }
        for (const axis of ['x', 'y', 'z'] as const) expectWithin(again.value[axis], direction[axis], 1e-12);
      }),
      { numRuns: 2000, examples: [[{ x: 0.000_001_000_000_088_904_440_2, y: 0, z: 0 }]] },
    );
  });

  test('a tilt is shown in the words that it was typed in', () => {
    for (const text of ['outboard 20 down', 'down 7.5 back', 'inboard 0.25 forward', 'forward 44 up']) {
      const direction = read(text);
      if (!direction.ok) throw new Error(text);
      expect(formatDirection(direction.value)).toBe(text);
    }
  });
});

test('the up for a direction is never along it', () => {
  for (const [, direction] of DIRECTIONS) {
    const up = upFor(direction);
    expect(direction.x * up.x + direction.y * up.y + direction.z * up.z).toBe(0);
  }
});

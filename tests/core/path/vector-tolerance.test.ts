/** The comparison of places must itself be able to fail. */

import { expect, test } from 'vitest';
import { expectVector } from './vector-tolerance.ts';

const HERE = { x: 1, y: 2, z: 3 };

test('a place off by more than the tolerance fails', () => {
  expect(() => expectVector({ x: 1, y: 2, z: 3.1 }, HERE, 0.09)).toThrow('is not within');
  expect(() => expectVector({ x: 1, y: 2, z: 3.1 }, HERE, 0.11)).not.toThrow();
});

test('NaN and a tolerance that is none fail', () => {
  expect(() => expectVector({ x: Number.NaN, y: 2, z: 3 }, HERE, 1)).toThrow();
  expect(() => expectVector(HERE, HERE, Number.NaN)).toThrow('compares nothing');
});

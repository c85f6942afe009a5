/** Places in a row, said as English says them. */

import { expect, test } from 'vitest';
import { ordinal, ordinalWord } from '../../../core/units/ordinal.ts';

test.each([
  [0, '0th'],
  [1, '1st'],
  [2, '2nd'],
  [3, '3rd'],
  [4, '4th'],
  [10, '10th'],
  [11, '11th'],
  [12, '12th'],
  [13, '13th'],
  [14, '14th'],
  [20, '20th'],
  [21, '21st'],
  [22, '22nd'],
  [23, '23rd'],
  [24, '24th'],
  [101, '101st'],
  [102, '102nd'],
  [111, '111th'],
  [112, '112th'],
  [113, '113th'],
  [121, '121st'],
  [1011, '1011th'],
])('%i is the %s', (number, said) => {
  expect(ordinal(number)).toBe(said);
});

test('up to ten they are words, past it figures', () => {
  expect([1, 2, 3, 10, 11, 21].map(ordinalWord)).toEqual(['first', 'second', 'third', 'tenth', '11th', '21st']);
});

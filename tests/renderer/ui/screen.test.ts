/** Addresses name screens, both ways. */

import { expect, test } from 'vitest';
import { readScreen, type Screen, writeScreen } from '../../../renderer/ui/screen.ts';

const SCREENS: readonly Screen[] = [
  { kind: 'headers' },
  { kind: 'bench', headerId: 'h_1-A' },
  { kind: 'cutplan', headerId: 'h_1-A' },
  { kind: 'sheet', headerId: 'h_1-A' },
  { kind: 'shelf' },
  { kind: 'archive' },
  { kind: 'archive', likeId: 'h_1-A' },
  { kind: 'compare', oneId: 'h_1-A', otherId: 'h_2-B' },
  { kind: 'shopFigures' },
  { kind: 'help', page: '' },
  { kind: 'help', page: 'odd-pieces' },
];

test.each(SCREENS)('the address of a screen reads back to the same screen: %j', (screen) => {
  expect(readScreen(writeScreen(screen))).toEqual(screen);
});

test.each([
  '',
  '#',
  '#/',
  '#/elsewhere',
  '#token=abc',
  '#/bench',
  '#/bench/',
  '#/cutplan',
  '#/sheet',
  '#/compare',
  '#/compare/h_1-A',
  '#/compare/h_1-A/a b',
  '#/bench/../../x',
  '#/bench/a b',
  `#/bench/${'x'.repeat(65)}`,
])('an address that names no screen is none: %j', (hash) => {
  expect(readScreen(hash)).toBeNull();
});

test('a page of help that cannot be one shows the first', () => {
  expect(readScreen('#/help/<script>')).toEqual({ kind: 'help', page: '' });
});

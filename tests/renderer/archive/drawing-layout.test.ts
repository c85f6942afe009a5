/** Flat drawings of headers: what they take up, and which is nearest to the eye. */

import { expect, test } from 'vitest';
import { demoHeader, type FlatView, flatViews } from '../../../core/index.ts';
import {
  heightOf,
  largeDrawing,
  largestView,
  smallDrawing,
  widthOf,
} from '../../../renderer/archive/drawing-layout.ts';

/** One straight tube of 40 mm along the paper, from (0, 10) to (100, 10), and one of 20 mm behind it, upright. */
const VIEW: FlatView = {
  name: 'Front',
  way: '',
  inlets: [],
  tubes: [
    {
      label: '1',
      odMm: 40,
      pieces: [
        {
          centreline: [
            { xMm: 0, yMm: 10 },
            { xMm: 100, yMm: 10 },
          ],
          ends: [[], []],
          nearMm: 5,
        },
      ],
    },
    {
      label: '2',
      odMm: 20,
      pieces: [
        {
          centreline: [
            { xMm: 50, yMm: 0 },
            { xMm: 50, yMm: 80 },
          ],
          ends: [[], []],
          nearMm: -5,
        },
      ],
    },
  ],
};

test('a drawing takes up its tubes with half of each on either side, and the nearer comes last', () => {
  const drawing = smallDrawing(VIEW);
  expect(drawing?.bounds).toEqual({ leftMm: -20, rightMm: 120, lowMm: -10, highMm: 90 });
  expect(drawing?.tubes.map(({ path, widthMm }) => [path, widthMm])).toEqual([
    ['M50,0L50,-80', 20],
    ['M0,-10L100,-10', 40],
  ]);
});

test('a view without tubes is no drawing', () => {
  expect(smallDrawing({ ...VIEW, tubes: [] })).toBeNull();
  expect(largeDrawing({ ...VIEW, tubes: [] })).toBeNull();
  expect(largestView([])).toBeNull();
});

test('of three views the largest is chosen', () => {
  const low: FlatView = { ...VIEW, name: 'Top', tubes: VIEW.tubes.slice(0, 1) };
  expect(largestView([low, VIEW])?.name).toBe('Front');
  expect(largestView([VIEW, low])?.name).toBe('Front');
});

test('the demo header is drawn primary by primary when small, and piece by piece when large', () => {
  const header = demoHeader('demo');
  const pieces = header.primaries.reduce((sum, primary) => sum + primary.pieces.length, 0);
  for (const view of flatViews(header).views) {
    const [small, large] = [smallDrawing(view), largeDrawing(view)];
    expect([small?.tubes.length, large?.tubes.length]).toEqual([header.primaries.length, pieces]);
    expect(small?.bounds).toEqual(large?.bounds);
    if (small === null) throw new Error('no drawing');
    expect(Math.min(widthOf(small.bounds), heightOf(small.bounds))).toBeGreaterThan(40);
  }
});

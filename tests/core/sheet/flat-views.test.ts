/** The three flat views: where points come to lie, and what is left out. */

import { expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { flatViews } from '../../../core/sheet/flat-views.ts';
import { expectWithin } from '../../tolerance.ts';
import { bend, headerOf, poseAt, primaryOf, straight } from '../path/made-primaries.ts';

const AT = (x: number, y: number, z: number) => ({ x, y, z });

/** x forward, y outboard, z up: 100 outboard from (10, 20, 30), then a quarter turn on 50 downwards. */
const one = primaryOf([straight(100), bend(50, 90, 180)], { port: poseAt(AT(10, 20, 30), AT(0, 1, 0), AT(0, 0, 1)) });

test('ends of the middle line, by hand', () => {
  const { views, problems } = flatViews(headerOf([one]));
  expect(problems).toEqual([]);
  const last = (name: string) =>
    views
      .find((view) => view.name === name)
      ?.tubes[0]?.pieces.at(-1)
      ?.centreline.at(-1);
  // The end is at (10, 170, -20).
  for (const [name, x, y] of [
    ['Front', 170, -20],
    ['Side', -10, -20],
    ['Top', -170, 10],
  ] as const) {
    expectWithin(last(name)?.xMm ?? Number.NaN, x, 1e-9);
    expectWithin(last(name)?.yMm ?? Number.NaN, y, 1e-9);
  }
});

test('the circle of an end is as high as the tube, and a line where it is seen from the side', () => {
  const { views } = flatViews(headerOf([one]));
  const [start = []] = views.find(({ name }) => name === 'Front')?.tubes[0]?.pieces[0]?.ends ?? [];
  const heights = start.map(({ yMm }) => yMm);
  const od = views[0]?.tubes[0]?.odMm ?? 0;
  expectWithin(Math.max(...heights) - Math.min(...heights), od, 1e-9);
  for (const { xMm } of start) expectWithin(xMm, 20, 1e-9);
});

test('what has no port is left out and named; what is known of a primary is drawn', () => {
  const [first, second, ...others] = demoHeader('demo').primaries;
  if (first === undefined || second === undefined) throw new Error('the demo has primaries');
  const half = {
    ...second,
    pieces: second.pieces.map((piece, at) => (at === 5 ? { ...bend(50, 30, null), id: piece.id } : piece)),
  };
  const { views, problems } = flatViews({
    ...demoHeader('demo'),
    primaries: [{ ...first, port: null }, half, ...others],
  });
  expect(problems.map(({ kind }) => kind)).toEqual(['portMissing', 'pathUnknown']);
  expect(views.map(({ tubes }) => tubes.length)).toEqual([3, 3, 3]);
  expect(views[0]?.tubes[0]?.pieces).toHaveLength(5);
  expect(flatViews(headerOf([primaryOf([straight(10)])])).views).toEqual([]);
});

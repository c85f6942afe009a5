/** What a move has to keep clear of, where two tubes go into one collector. */

import { expect, test } from 'vitest';
import type { Primary } from '../../../core/header/header.ts';
import { gapsOf, leastOf, type Neighbours, neighboursOf, tightenedTo } from '../../../core/moves/offer/neighbours.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import { bend, headerOf, poseAt, primaryOf, straight } from '../path/made-primaries.ts';

function leastClearance(neighbours: Neighbours, primary: Primary): number | null {
  return leastOf(gapsOf(neighbours, primary));
}

/** An S over to the neighbour and one back, then the last over to it by a little more, where they meet. */
function weavingPair() {
  const shiftOf = (angleDeg: number) => 120 * (1 - Math.cos((angleDeg / 180) * Math.PI));
  const step = (angleDeg: number) => [bend(60, angleDeg, 0), bend(60, angleDeg, 180)];
  const pieces = [straight(100), ...step(30), straight(100), ...step(30), straight(200), ...step(31), straight(30)];
  const lengthMm = 430 + 120 * (0.5 + 0.5 + Math.sin((31 / 180) * Math.PI));
  const up = { x: 0, y: 1, z: 0 };
  const weaving = primaryOf(pieces, { id: 'w', port: poseAt({ x: 0, y: 0, z: 0 }, { x: 1, y: 0, z: 0 }, up) });
  const y = 40 + 2 + shiftOf(30);
  const port = poseAt({ x: 0, y, z: 0 }, { x: 1, y: 0, z: 0 }, { x: 0, y: 0, z: 1 });
  const beside = primaryOf([straight(lengthMm)], { id: 'b', port });
  return {
    weaving: { ...weaving, inletId: 'i1' },
    beside: { ...beside, inletId: 'i2' },
    meetMm: 2 + shiftOf(30) - shiftOf(31),
  };
}

const inlet = (id: string) => ({ id, name: id, place: null, slip: { deeper: inches(0), shallower: inches(0) } });
const tube = { material: '304', od: millimetres(40), wall: millimetres(1.5) };

test('the meeting does not count, and what is nearer than wanted before it does', () => {
  const { weaving, beside, meetMm } = weavingPair();
  const collector = { id: 'c', name: 'c', inlets: [inlet('i1'), inlet('i2')] };
  const header = headerOf([weaving, beside], { collectors: [collector] }, { tube });
  const leastWanting = (wantedMm: number) => leastClearance(neighboursOf(header, 'w', wantedMm), weaving);
  expect(meetMm).toBeLessThan(1);
  const alone = leastClearance(neighboursOf(headerOf([weaving], {}, { tube }), 'w', 1), weaving);
  expect(leastWanting(1)).toBe(alone);
  expectWithin(leastWanting(5) ?? Number.NaN, 2, 1e-6);
});

test('without a common collector the nearest place counts, wherever it is', () => {
  const { weaving, beside, meetMm } = weavingPair();
  const header = headerOf([weaving, beside], {}, { tube });
  expectWithin(leastClearance(neighboursOf(header, 'w', 1), weaving) ?? Number.NaN, meetMm, 1e-6);
});

test('each thing is held against its own past: that one is tight already excuses no other', () => {
  const before = new Map([
    ['itself', 30],
    ['primary a', 2],
    ['primary b', 20],
  ]);
  const after = (a: number, b: number) =>
    new Map([
      ['itself', 30],
      ['primary a', a],
      ['primary b', b],
    ]);
  expect(tightenedTo(before, after(2, 20), 6)).toBeNull();
  expect(tightenedTo(before, after(3, 6), 6)).toBeNull();
  expect(tightenedTo(before, after(2, 4), 6)).toBe(4);
  expect(tightenedTo(before, after(1, 20), 6)).toBe(1);
  expect(tightenedTo(before, new Map([['obstacle wall', 5]]), 6)).toBe(5);
});

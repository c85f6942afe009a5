/** Where the saw goes, against figures worked by hand and a published one. */

import { describe, expect, test } from 'vitest';
import { planCuts } from '../../../../core/stock/plan/plan-cuts.ts';
import { cutList } from '../../../../core/stock/plan/saw/cut-list.ts';
import { sawMark } from '../../../../core/stock/plan/saw/saw-mark.ts';
import { expectWithin, expectWithinDeg } from '../../../tolerance.ts';
import { bend, problemOf, SAW, stick, stockBend, straight } from './made-problems.ts';

const INCH_MM = 25.4;

describe('a mark', () => {
  // Hamilton & Hamilton, Math To Build On (1993): a 90 elbow of CLR 3 in and OD 2 in cut at 45 degrees.
  test('halfway round a 90 elbow is at 3.1416 in outside and 1.5708 in inside', () => {
    const row = stockBend('elbow', { angleDeg: 90, legsMm: [0, 0], clrMm: 3 * INCH_MM });
    const mark = sawMark({ ...row, tube: { ...row.tube, odMm: 2 * INCH_MM } }, (3 * INCH_MM * Math.PI) / 4);
    if (mark.on !== 'arc') throw new Error(`marked on the ${mark.on}`);
    expectWithinDeg(mark.angleDeg, 45, 1e-9);
    expectWithin(mark.outsideMm / INCH_MM, 31_416e-4, 5e-5);
    expectWithin(mark.insideMm / INCH_MM, 1.5708, 5e-5);
  });

  test('on the first leg is measured from its end, on the other leg from the other end', () => {
    const row = stockBend('ninety', { angleDeg: 90, legsMm: [40, 60], clrMm: 100 });
    // Legs 40 and 60 on an arc of 100 pi/2 = 157.0796: 25 from the first end, and 157.0796 + 40 + 45 = 15 from the other.
    expect(sawMark(row, 25)).toEqual({ on: 'firstLeg', fromEndMm: 25 });
    const other = sawMark(row, 40 + 50 * Math.PI + 45);
    if (other.on !== 'otherLeg') throw new Error(`marked on the ${other.on}`);
    expectWithin(other.fromEndMm, 15, 1e-9);
  });
});

describe('a cut list', () => {
  test('gives each cut its line with the kerf beyond it, and ends with what is left', () => {
    const problem = problemOf({
      pieces: [straight('a', 400), straight('b', 300)],
      stock: [stick('bar', 1000)],
      saw: { ...SAW, facingMm: 0.5 },
    });
    const [item] = cutList(problem, planCuts(problem));
    // Longest first: 400, then 2 + 2 x 0.5 = 3 for the cut, then 300 from 403 to 703, a cut to 706, and 294 left.
    const marks = item?.steps.map(({ saw }) => saw?.line);
    expect(marks).toEqual([{ on: 'straight', fromEndMm: 400.5 }, { on: 'straight', fromEndMm: 703.5 }, undefined]);
    const gives = item?.steps.flatMap((step) => step.gives) ?? [];
    expect(gives.slice(0, 2)).toEqual([
      { kind: 'pieces', pieceIds: ['a'] },
      { kind: 'pieces', pieceIds: ['b'] },
    ]);
    const [left] = gives.slice(2);
    if (left?.kind !== 'remnant' || left.stock.kind !== 'straight') throw new Error('no straight is left');
    expectWithin(left.stock.lengthMm, 294, 1e-9);
  });

  test('keeps a straight on its bend, and says which bend is left with which leg', () => {
    // The 60 leg is kept at 50: 60 - 50 = 10 comes off, of which the cut takes 2 and 8 is scrap. Of the 180, 90 is cut:
    // 2 mm at CLR 76.2 are 1.50383 degrees, so 88.49617 are left, with the other leg of 80.
    const problem = problemOf({
      pieces: [straight('s', 50), bend('b', 90)],
      joints: [{ straightId: 's', bendId: 'b' }],
      stock: [stockBend('u', { angleDeg: 180, legsMm: [60, 80] })],
    });
    const plan = planCuts(problem);
    const [item] = cutList(problem, plan);
    expect(plan.goals).toMatchObject({ shortage: 0, welds: -1 });
    const gifts = item?.steps.flatMap(({ gives }) => gives) ?? [];
    const left = gifts.find((gift) => gift.kind === 'remnant');
    expect(gifts.find(({ kind }) => kind === 'pieces')).toEqual({ kind: 'pieces', pieceIds: ['s', 'b'] });
    if (left?.kind !== 'remnant' || left.stock.kind !== 'bend') throw new Error('no bend is left');
    expectWithinDeg(left.stock.angleDeg, 88.4961737661, 1e-9);
    expect([...left.stock.legsMm].map((leg) => Math.round(leg * 1e6) / 1e6)).toEqual([0, 80]);
    const line = item?.steps[1]?.saw?.line;
    if (line?.on !== 'arc') throw new Error('the second cut is not on the arc');
    // 90 degrees along the outside: (76.2 + 22.225) pi/2 = 154.6056, and along the inside (76.2 - 22.225) pi/2 = 84.7837.
    expectWithinDeg(line.angleDeg, 90, 1e-9);
    expectWithin(line.outsideMm, 154.6056, 5e-5);
    expectWithin(line.insideMm, 84.7837, 5e-5);
  });
});

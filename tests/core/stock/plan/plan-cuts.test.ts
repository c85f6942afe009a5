/** Cut plans against textbook rows, cases worked by hand, problems made with a known least, and every assignment. */

import { createRequire } from 'node:module';
import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Piece } from '../../../../core/header/header.ts';
import { newHeader } from '../../../../core/header/new-header.ts';
import { demoShelf } from '../../../../core/stock/demo-shelf.ts';
import { checkPlan } from '../../../../core/stock/plan/check-plan.ts';
import { columnsOf } from '../../../../core/stock/plan/columns/columns.ts';
import { type CutPlan, isProvenLeast } from '../../../../core/stock/plan/cut-plan.ts';
import type { CutProblem } from '../../../../core/stock/plan/cut-problem.ts';
import { smallPlan } from '../../../../core/stock/plan/exact/small-plan.ts';
import { cutProblemOf, DEFAULT_SAW } from '../../../../core/stock/plan/from-shelf.ts';
import { solveInOrder } from '../../../../core/stock/plan/milp/in-order.ts';
import { planCuts } from '../../../../core/stock/plan/plan-cuts.ts';
import { stockOfPieces, tubeProblems } from '../../../../core/stock/plan/tube-problem.ts';
import { millimetres } from '../../../../core/units/length.ts';
import { highsMilp } from '../../../../electron/solver/highs-milp.ts';
import { expectWithin } from '../../../tolerance.ts';
import { seededRandom } from '../../path/made-primaries.ts';
import { headerProblem } from './made-headers.ts';
import {
  bend,
  packingProblem,
  problemOf,
  randomProblem,
  SAW,
  stick,
  stockBend,
  straight,
  TUBE,
} from './made-problems.ts';

const solveMilp = highsMilp(await createRequire(import.meta.url)('highs')());
const withSolver = { solveMilp, now: () => performance.now(), limitMs: 60_000 };

function repeated(sizes: readonly (readonly [lengthMm: number, count: number])[]): readonly number[] {
  return sizes.flatMap(([lengthMm, count]) => new Array<number>(count).fill(lengthMm));
}

function expectPlan(problem: CutProblem, plan: CutPlan, opened: number): void {
  expect(checkPlan(problem, plan)).toEqual([]);
  expect(plan.short).toEqual([]);
  expect(plan.opened).toHaveLength(opened);
  expect(plan.bounds.find(({ goal }) => goal === 'cost')?.bound).toBe(100 * opened);
}

describe('textbook cutting problems', () => {
  // Wikipedia, Cutting stock problem, the illustrated example: 73 rolls, with a bound of 72.92 without whole numbers.
  test('13 widths from rolls of 5600 take 73', () => {
    const widths = [
      [1380, 22],
      [1520, 25],
      [1560, 12],
      [1710, 14],
      [1820, 18],
      [1880, 18],
      [1930, 20],
      [2000, 10],
      [2050, 12],
      [2100, 14],
      [2140, 16],
      [2150, 18],
      [2200, 20],
    ] as const;
    const problem = packingProblem(5600, repeated(widths));
    expectPlan(problem, planCuts(problem, withSolver), 73);
  });

  // Chvatal, Linear Programming (1983), chapter 13, as in the GAMS model cutstock: 453, with a bound of 452.25.
  test('4 widths from rolls of 100 take 453', () => {
    const widths = [
      [45, 97],
      [36, 610],
      [31, 395],
      [14, 211],
    ] as const;
    const problem = packingProblem(100, repeated(widths));
    expectPlan(problem, planCuts(problem, withSolver), 453);
  });

  // Fourer, Gay and Kernighan, AMPL, the model cut.mod (from memory): 47, with a bound of 46.25 without whole numbers.
  test('5 widths from rolls of 110 take 47', () => {
    const widths = [
      [20, 48],
      [45, 35],
      [50, 24],
      [55, 10],
      [75, 8],
    ] as const;
    const problem = packingProblem(110, repeated(widths));
    expectPlan(problem, planCuts(problem, withSolver), 47);
  });
});

describe('kerf, legs and facing by hand', () => {
  test.each([
    // 3 x 2000 and two cuts of 3 are 6006: the last piece ends where the bar does.
    [6000, 2],
    [6006, 1],
  ])('three of 2000 with a kerf of 3 take from bars of %i: %i', (capacityMm, bars) => {
    const problem = packingProblem(capacityMm, [2000, 2000, 2000], 3);
    expectPlan(problem, planCuts(problem), bars);
  });

  test.each([
    // 2 mm at CLR 76.2 are 1.50383 degrees: 3 x 60 + 2 x 1.50383 = 183.008, 3 x 58.99 + 2 x 1.50383 = 179.978.
    [60, 2],
    [58.99, 1],
  ])('three bends of %f degrees take from U-bends: %i', (angleDeg, opened) => {
    const problem = problemOf({
      pieces: ['a', 'b', 'c'].map((id) => bend(id, angleDeg)),
      stock: [stockBend('u', { angleDeg: 180, legsMm: [0, 0] }, { count: 3, cost: 1 })],
    });
    expectPlan(problem, planCuts(problem), opened);
  });

  test.each([
    // A straight of 50 and its cut of 2 + 2 x 0.5 are 53.
    [52.9, 1],
    [53, 0],
  ])('a straight of 50 from a leg of %f leaves so many short: %i', (legMm, short) => {
    const problem = problemOf({
      pieces: [straight('s', 50)],
      stock: [stockBend('ninety', { angleDeg: 90, legsMm: [0, legMm] })],
      saw: { kerfMm: 2, facingMm: 0.5, shortestRemnantMm: 50 },
    });
    expect(planCuts(problem).short).toHaveLength(short);
  });

  test('a bend that is the whole stock bend keeps the straights of both its ends without a cut', () => {
    const problem = problemOf({
      pieces: [straight('before', 50), bend('b', 90), straight('after', 80)],
      joints: [
        { straightId: 'before', bendId: 'b' },
        { straightId: 'after', bendId: 'b' },
      ],
      stock: [stockBend('ninety', { angleDeg: 90, legsMm: [80, 50] }), stick('bar', 1000, { cost: 0 })],
    });
    const plan = planCuts(problem);
    expect(plan.goals).toEqual({ shortage: 0, cost: 1000, welds: -2, lost: 0 });
    expect(plan.opened[0]?.stretches.map(({ kind }) => kind)).toEqual(['piece', 'piece', 'piece']);
  });

  test('a remnant is used before fresh stock is opened', () => {
    const problem = problemOf({
      pieces: [straight('s', 300)],
      stock: [stick('fresh', 300, { cost: 1 }), stick('rest', 320, { cost: 99, isRemnant: true })],
    });
    expect(planCuts(problem).opened.map(({ rowId }) => rowId)).toEqual(['rest']);
  });
});

describe('problems made with a known least', () => {
  // Triplets as Falkenauer (J. Heuristics 2, 1996) made them: three lengths fill a bar with nothing left, so n bars are least.
  test.each([1, 2, 3])('seed %i: 8 triplets come out of 8 bars', (seed) => {
    const random = seededRandom(seed * 31);
    const lengths = Array.from({ length: 8 }, () => {
      const first = 380 + Math.floor(random() * 110);
      const second = 250 + Math.floor(random() * ((1000 - first) / 2 - 250));
      return [first, second, 1000 - first - second];
    }).flat();
    const problem = packingProblem(1000, lengths);
    expectPlan(problem, planCuts(problem, withSolver), 8);
  });
});

describe('the solver', () => {
  test('is as good as looking at every set of pieces, in every goal', () => {
    for (let seed = 501; seed <= 560; seed += 1) {
      const [tube] = tubeProblems(randomProblem(seed));
      if (tube === undefined) throw new Error(`seed ${seed} has no pieces`);
      const columns = columnsOf(tube, { isApart: false, limit: 20_000, listsSticks: false });
      const solved = solveInOrder(columns, { ...withSolver, untilMs: Number.POSITIVE_INFINITY });
      expect(solved.chosen.goals, `seed ${seed}`).toEqual(smallPlan(tube).chosen.goals);
      expect(isProvenLeast(solved), `seed ${seed}`).toBe(true);
    }
  });

  test('proves a header of 20 pieces from 30 stock rows, and is no worse than twelve at a time', () => {
    const problem = headerProblem(3, { primaries: 8, pieces: 20 });
    const plan = planCuts(problem, withSolver);
    const batches = planCuts(problem);
    expect(isProvenLeast(plan)).toBe(true);
    expect(isProvenLeast(batches)).toBe(false);
    expect(checkPlan(problem, batches)).toEqual([]);
    expect(plan.goals.shortage).toBeLessThanOrEqual(batches.goals.shortage);
    expect(plan.goals.cost).toBeLessThanOrEqual(batches.goals.cost);
  });

  test('proves the demo header, all of it still to be cut, from the demo shelf', () => {
    const demo = demoHeader('demo');
    const primaries = demo.primaries.map((primary) => ({
      ...primary,
      pieces: primary.pieces.map((piece) => ({ ...piece, state: 'planned' as const })),
    }));
    let made = 0;
    const stock = demoShelf(() => {
      made += 1;
      return `stock-${made}`;
    });
    const problem = cutProblemOf([{ ...demo, primaries }], stock, DEFAULT_SAW);
    const plan = planCuts(problem, withSolver);
    expect(problem.pieces).toHaveLength(32);
    expect(checkPlan(problem, plan)).toEqual([]);
    expect(plan.short).toEqual([]);
    expect(plan.ended).toBe('searched');
    expect(isProvenLeast(plan)).toBe(true);
  });

  test('with more ways of cutting than can be listed, gives a plan that holds and is not called least', () => {
    const problem = problemOf({
      pieces: Array.from({ length: 24 }, (_, at) => bend(`b${at}`, 3 + at / 7)),
      stock: [stockBend('u', { angleDeg: 180, legsMm: [40, 60] }, { count: 20 })],
    });
    const plan = planCuts(problem, { ...withSolver, limitMs: 3_000 });
    expect(checkPlan(problem, plan)).toEqual([]);
    expect(plan.ended).toBe('gaveUp');
    expect(isProvenLeast(plan)).toBe(false);
  });

  test('out of time, gives the best so far and says so', () => {
    const problem = headerProblem(2, { primaries: 8, pieces: 20 });
    const plan = planCuts(problem, { ...withSolver, limitMs: 0 });
    expect(plan.ended).toBe('timeUp');
    expect(isProvenLeast(plan)).toBe(false);
    expect(checkPlan(problem, plan)).toEqual([]);
  });
});

describe('the checker', () => {
  const problem = problemOf({
    pieces: [straight('a', 100), bend('b', 45)],
    stock: [stick('bar', 300), stockBend('ninety', { angleDeg: 90, legsMm: [0, 0] })],
  });
  const plan = planCuts(problem);

  test.each([
    ['a piece that is missing', { ...plan, opened: plan.opened.slice(1) }, 'pieceMissing'],
    ['a piece that is cut and short', { ...plan, short: ['a'] }, 'pieceTwice'],
    ['an item that is opened twice', { ...plan, opened: [...plan.opened, ...plan.opened] }, 'stockTwice'],
    ['a cost that is not so', { ...plan, goals: { ...plan.goals, cost: 1 } }, 'goalWrong'],
    [
      'tube that is not accounted for',
      { ...plan, opened: plan.opened.map((one) => ({ ...one, stretches: one.stretches.slice(0, -1) })) },
      'notAllOfStock',
    ],
    [
      'a piece cut without a saw',
      {
        ...plan,
        opened: plan.opened.map((one) => ({ ...one, stretches: one.stretches.filter(({ kind }) => kind !== 'cut') })),
      },
      'noCut',
    ],
    [
      'a bend cut from straight tube',
      { ...plan, opened: plan.opened.map((one) => ({ ...one, rowId: 'bar', copy: one.rowId.length })) },
      'wrongLength',
    ],
  ])('sees %s', (_, wrong, kind) => {
    expect(checkPlan(problem, wrong).map((fault) => fault.kind)).toContain(kind);
  });

  test('finds nothing in the plan itself', () => {
    expect(checkPlan(problem, plan)).toEqual([]);
  });
});

describe('a problem from a header and the shelf', () => {
  const piece = { state: 'planned', locked: false, note: '' } as const;
  const header = newHeader({ id: 'h', name: 'Four' });

  test('has the planned pieces, the joints between them, and a pie-cut bend as a blank', () => {
    const pieces: Piece[] = [
      { ...piece, kind: 'straight', id: 's1', length: millimetres(100) },
      { ...piece, kind: 'bend', id: 'b1', clr: millimetres(76.2), angleDeg: 45, clockingDeg: null },
      { ...piece, kind: 'straight', id: 's2', length: millimetres(80), state: 'tacked' },
      { ...piece, kind: 'pieCut', id: 'p1', clr: millimetres(100), angleDeg: 90, clockingDeg: null, pies: 3 },
    ];
    const primary = { id: 'one', name: '1', tube: null, port: null, inletId: null, pieces };
    const problem = cutProblemOf([{ ...header, primaries: [primary] }], [], { ...SAW, kerfMm: 2 });
    expect(problem.pieces.map(({ id }) => id)).toEqual(['h:s1', 'h:b1', 'h:p1']);
    expect(problem.joints).toEqual([{ straightId: 'h:s1', bendId: 'h:b1' }]);
    // Three joints, so three mitred cuts between a half pie, two whole ones and a half: three chords of 2 x 100 tan 15 = 53.5898,
    // and 2 / cos 15 = 2.0706 a cut: 160.7695 + 6.2117.
    const blank = problem.pieces[2];
    expectWithin(blank?.kind === 'straight' ? blank.lengthMm : 0, 166.9812, 5e-5);
  });

  test('needs of a shelf of any size only what a piece could come out of', () => {
    const other = Array.from({ length: 25_000 }, (_, at) =>
      stick(`other-${at}`, 1000, { tube: { ...TUBE, odMm: 38.1 } }),
    );
    const stock = [...other, stick('own', 1000), stick('none', 1000, { count: 0 })];
    expect(stockOfPieces({ pieces: [straight('a', 100)], stock }).map(({ id }) => id)).toEqual(['own']);
  });

  test('counts stock without a price by its tube', () => {
    const common = { id: 'x', material: '321', od: millimetres(44.45), wall: millimetres(1.65), count: 2, note: '' };
    const [row] = cutProblemOf([], [{ ...common, kind: 'straight', length: millimetres(1000) }], SAW).stock;
    expect(row).toMatchObject({ kind: 'straight', lengthMm: 1000, cost: 10, count: 2, isRemnant: false });
  });
});

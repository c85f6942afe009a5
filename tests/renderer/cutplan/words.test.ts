/** A cut plan in words: what is said of it, where the saw goes, and what is written on what comes off. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Primary } from '../../../core/header/header.ts';
import { demoShelf } from '../../../core/stock/demo-shelf.ts';
import type { CutPlan, GoalBound } from '../../../core/stock/plan/cut-plan.ts';
import { cutProblemOf, DEFAULT_SAW } from '../../../core/stock/plan/from-shelf.ts';
import { placedPieces } from '../../../core/stock/plan/kept-plan.ts';
import { orderProblem } from '../../../core/stock/plan/order-problem.ts';
import { planCuts } from '../../../core/stock/plan/plan-cuts.ts';
import type { StockItem } from '../../../core/stock/stock-item.ts';
import { inches } from '../../../core/units/length.ts';
import { giftWords, kerfWords, markWords, writeOnWords } from '../../../renderer/cutplan/list/cut-words.ts';
import { byId } from '../../../renderer/cutplan/list/plan-pieces.ts';
import { boxOf, stockShape, stretchPath } from '../../../renderer/cutplan/list/stock-shape.ts';
import { orderRows, orderWords } from '../../../renderer/cutplan/order-rows.ts';
import { coverWords, figureSentences, progressWords, proofSentence } from '../../../renderer/cutplan/plan-verdict.ts';
import { shortageRows } from '../../../renderer/cutplan/shortage-rows.ts';
import { stick, stockBend, straight } from '../../core/stock/plan/made-problems.ts';
import { expectWithin } from '../../tolerance.ts';

const MM = { kind: 'mm', places: 1 } as const;
const SIXTEENTHS = { kind: 'fraction', per: 16 } as const;
/** Ids `row-1`, `row-2` and so on. */
function numbered(): () => string {
  let last = 0;
  return () => {
    last += 1;
    return `row-${last}`;
  };
}

/** All its pieces as they are before the saw. */
const asPlanned = (primary: Primary): Primary => ({
  ...primary,
  pieces: primary.pieces.map((piece) => ({ ...piece, state: 'planned' })),
});

const plain = (text: string) => text.replaceAll('\u2009', ' ');

const bound = (goal: GoalBound['goal'], reached: number, least = reached): GoalBound => ({
  goal,
  reached,
  bound: least,
});
const PROVEN: CutPlan = {
  opened: [],
  short: [],
  goals: { shortage: 0, cost: 4500, welds: -2, lost: 300 },
  bounds: [bound('shortage', 0), bound('cost', 4500), bound('welds', -2), bound('lost', 300)],
  ended: 'searched',
};

describe('where the saw goes', () => {
  test('is a distance from an end on straight tube and legs, and an angle with both arcs on a bend', () => {
    expect(markWords({ on: 'straight', fromEndMm: 400.5 }, MM)).toBe('400.5 mm from the first end');
    expect(markWords({ on: 'otherLeg', fromEndMm: 25.4 }, SIXTEENTHS)).toBe('1" from the end of the other leg');
    // CLR 3 in, OD 2 in, 45 degrees: 3.1416 in outside and 1.5708 in inside (Hamilton & Hamilton, Math To Build On, 1993).
    const arc = { on: 'arc', angleDeg: 45, outsideMm: 79.796, insideMm: 39.898, legMm: 50.8 } as const;
    expect(markWords(arc, MM)).toBe('45° into the bend: outside arc 79.8 mm, inside arc 39.9 mm');
  });

  test('says on which side of the line the kerf lies, and when there is only an end to dress', () => {
    const saw = { kerfMm: 2, facingMm: 0, shortestRemnantMm: 50 };
    const step = (kerfLies: 'beyond' | 'before', widthMm: number) => ({
      gives: [],
      saw: { line: { on: 'straight', fromEndMm: 10 } as const, kerfLies, widthMm },
    });
    expect(kerfWords(step('beyond', 2), saw, MM)).toBe('saw beyond the line');
    expect(kerfWords(step('before', 2), saw, MM)).toBe('saw before the line');
    expect(kerfWords(step('beyond', 0.5), saw, MM)).toBe('dress off the last 0.5 mm');
    expect(kerfWords({ gives: [], saw: null }, saw, MM)).toBe('');
  });
});

describe('what comes off', () => {
  const pieces = byId(placedPieces([demoHeader('demo')]));

  test('is said by primary and place, and marked shorter on the tube', () => {
    const one = { kind: 'pieces', pieceIds: ['demo:piece-2-5'] } as const;
    expect(plain(giftWords(one, pieces, SIXTEENTHS))).toBe('Primary 2, piece 5: straight 1"');
    expect(writeOnWords(one, pieces, SIXTEENTHS)).toBe('2-5');
    const two = { kind: 'pieces', pieceIds: ['demo:piece-2-4', 'demo:piece-2-5'] } as const;
    expect(plain(giftWords(two, pieces, SIXTEENTHS))).toBe(
      'Primary 2, piece 4: bend 60°, CLR 4" + Primary 2, piece 5: straight 1", in one, not cut apart',
    );
    expect(writeOnWords(two, pieces, SIXTEENTHS)).toBe('2-4 + 2-5');
  });

  test('is marked with its header where several are cut together', () => {
    const two = byId(placedPieces([demoHeader('demo'), { ...demoHeader('left'), name: 'Left bank' }]));
    const one = { kind: 'pieces', pieceIds: ['left:piece-2-5'] } as const;
    expect(plain(giftWords(one, two, SIXTEENTHS))).toBe('Left bank, Primary 2, piece 5: straight 1"');
    expect(writeOnWords(one, two, SIXTEENTHS)).toBe('Left bank 2-5');
  });

  test('is kept with its size written on it, or is scrap with nothing', () => {
    const kept = { kind: 'remnant', stock: stockBend('r', { angleDeg: 38, legsMm: [0, 80] }) } as const;
    expect(writeOnWords(kept, pieces, MM)).toBe(
      '321, 44.5 mm bend, CLR 76.2 mm, 38°, first leg 0.0 mm, other leg 80.0 mm',
    );
    expect(giftWords(kept, pieces, MM)).toMatch(/^Keep: remnant/);
    expect(writeOnWords({ kind: 'scrap', lengthMm: 4 }, pieces, MM)).toBe('');
    expect(giftWords({ kind: 'scrap', lengthMm: 4 }, pieces, MM)).toBe('Scrap, 4.0 mm');
  });
});

describe('the verdict', () => {
  const problem = { pieces: [straight('a', 100), straight('b', 200), straight('c', 300)] };

  test('counts what is covered and what is short', () => {
    expect(coverWords({ problem, plan: PROVEN })).toBe('All 3 planned pieces are covered.');
    expect(coverWords({ problem, plan: { ...PROVEN, short: ['b'] } })).toBe('2 of 3 planned pieces covered, 1 short.');
  });

  test('has a cost only where the shelf has costs, and says how many it has not', () => {
    const stock = demoShelf(numbered());
    const fresh = stock.find((item) => item.cost === 36);
    const remnant = stock.find((item) => item.cutFrom !== undefined);
    if (fresh === undefined || remnant === undefined) throw new Error('the demo shelf lacks what this needs');
    const { cost: _known, ...unpriced } = { ...fresh, id: 'unpriced' };
    const opened = (...ids: readonly string[]) => ids.map((rowId, at) => ({ rowId, copy: at + 1, stretches: [] }));
    const said = (...ids: readonly string[]) =>
      figureSentences({ problem, stock: [...stock, unpriced], plan: { ...PROVEN, opened: opened(...ids) } }).join(' ');
    expect(said(fresh.id, fresh.id, remnant.id)).toMatch(/2 fresh stock items and 1 remnant\. .*costs 72\.00\./);
    expect(said(fresh.id, 'unpriced')).toContain('costs 36.00, without 1 item that');
    expect(said('unpriced')).not.toContain('costs');
    expect(said(fresh.id)).toContain('2 welds saved');
  });

  test('is proven least only when every goal has reached its bound', () => {
    expect(proofSentence(PROVEN, MM)).toMatch(/^Proven least/);
    const timeUp = { ...PROVEN, ended: 'timeUp', bounds: [bound('shortage', 0), bound('cost', 4500, 4100)] } as const;
    expect(proofSentence(timeUp, MM)).toBe(
      'Best found so far, not proven least, for the time was up: its fresh stock counts 45.00, and no plan that covers as much counts below 41.00.',
    );
    const unknown = { ...timeUp, bounds: [bound('cost', 4500, 0)] };
    expect(proofSentence(unknown, MM)).toContain('how far its fresh stock is from the least is not known');
    const welds = { ...timeUp, bounds: [bound('welds', -2, -5)] };
    expect(proofSentence(welds, MM)).toContain('saves 2 welds, and no plan as cheap saves more than 5');
    const lost = { ...timeUp, bounds: [bound('lost', 12_000, 10_000)] };
    expect(proofSentence(lost, MM)).toContain(
      'loses 120.0 mm of tube, and no plan as good otherwise loses less than 100.0 mm',
    );
  });

  test('never calls a stopped plan proven, whatever bounds it came with', () => {
    expect(proofSentence({ ...PROVEN, ended: 'stopped' }, MM)).toBe(
      'Best found so far, not proven least, for it was stopped: no bound is known.',
    );
  });

  test('says how far the search is', () => {
    expect(progressWords(null)).toBe('Planning…');
    expect(progressWords({ tubesPlanned: 1, tubes: 2, best: { ...PROVEN, short: ['a'] } })).toBe(
      'Planning: 1 of 2 tube sizes done; so far 1 short.',
    );
  });
});

test('what is short is counted by size, and each row says which pieces wait for it', () => {
  const header = demoHeader('demo');
  const pieces = byId(placedPieces([header]));
  const rows = shortageRows([header], pieces, [
    'demo:piece-1-2',
    'demo:piece-1-4',
    'demo:piece-2-6',
    'demo:piece-2-5',
    'gone',
  ]);
  expect(rows.map((row) => [row.kind, row.count, row.note])).toEqual([
    ['bend', 3, 'for 1-2, 1-4, 2-6'],
    ['straight', 1, 'for 2-5'],
  ]);
});

describe('the order', () => {
  const header = demoHeader('demo');
  const pieces = placedPieces([header]);
  // 1-2 is a 90 and 1-6 a 75 of CLR 3 in; nothing of that CLR is on hand, but the shelf has rows of it.
  const short = ['demo:piece-1-2', 'demo:piece-1-6', 'demo:piece-2-5'];
  const planned = (stock: readonly StockItem[]) => {
    const all = { ...header, primaries: header.primaries.map(asPlanned) };
    const problem = cutProblemOf([all], stock, DEFAULT_SAW);
    const wanted = orderProblem(problem, short, stock);
    const plan: CutPlan = { ...PROVEN, short };
    return { headers: [header], pieces, stock, problem, plan, order: { problem: wanted, plan: planCuts(wanted) } };
  };
  const tube = { ...header.settings.tube, note: '', count: 0 };
  const row = (id: string, angleDeg: number, cost: number): StockItem => ({
    ...{ ...tube, kind: 'bend', id, clr: inches(3), angleDeg, legs: [inches(0), inches(0)], cost },
  });

  test('is of what covers the pieces at the least cost, and of net sizes where no row does', () => {
    // A 180 gives both, kerf and all, and costs less than a bend for each.
    const made = planned([row('90', 90, 18), row('75', 75, 18), row('180', 180, 34)]);
    const rows = orderRows(made, byId(pieces));
    expect(rows.map(({ item, isNet }) => [item.kind, item.count, item.note, isNet])).toEqual([
      ['bend', 1, 'for 1-2, 1-6', false],
      ['straight', 1, 'for 2-5', true],
    ]);
    expect(orderWords(rows, made.order)).toBe(
      'It costs 34.00 in all, and no other order of what the shelf has rows of costs less.',
    );
    const cheap = planned([row('90', 90, 16), row('75', 75, 16), row('180', 180, 34)]);
    const two = orderRows(cheap, byId(pieces));
    expect(two.filter(({ isNet }) => !isNet).map(({ item }) => [item.id, item.count])).toEqual([
      ['90', 1],
      ['75', 1],
    ]);
  });

  test('never is of a remnant, and says when costs are not known', () => {
    const { cost: _known, ...unpriced } = row('u', 180, 34);
    const made = planned([unpriced, { ...row('rest', 180, 0), cutFrom: null }]);
    const rows = orderRows(made, byId(pieces));
    expect(rows.filter(({ isNet }) => !isNet).map(({ item }) => item.id)).toEqual(['u']);
    expect(orderWords(rows, made.order)).toMatch(/^What has a cost comes to 0\.00, and /);
    expect(orderWords(orderRows({ ...made, order: null }, byId(pieces)), null)).toBe(null);
  });
});

describe('the picture', () => {
  const bend = stockBend('u', { angleDeg: 180, legsMm: [60, 80] });

  test('of a 180 with legs is as wide as two CLR and one OD, and as high as the longer leg, CLR and half the OD', () => {
    const box = boxOf(bend);
    // 2 x 76.2 + 44.45 = 196.85; 80 + 76.2 + 22.225 = 178.425.
    expectWithin(box.width, 196.85, 1e-9);
    expectWithin(box.height, 178.425, 1e-9);
    expect(boxOf(stick('bar', 1000))).toEqual({ x: 0, y: -22.225, width: 1000, height: 44.45 });
  });

  test('keeps distances along the centreline: places a step apart are a step apart on legs, a chord on the arc', () => {
    const { lengthMm, placeAt } = stockShape(bend);
    expectWithin(lengthMm, 140 + 76.2 * Math.PI, 1e-9);
    const apart = (a: number, b: number) => {
      const [[x, y], [u, v]] = [placeAt(a, 0), placeAt(b, 0)];
      return Math.hypot(x - u, y - v);
    };
    expectWithin(apart(0, 60), 60, 1e-9);
    expectWithin(apart(lengthMm - 80, lengthMm), 80, 1e-9);
    // The chord of 60 degrees is the radius.
    expectWithin(apart(60, 60 + (76.2 * Math.PI) / 3), 76.2, 1e-9);
  });

  test('of a stretch is a closed outline', () => {
    expect(stretchPath(stick('bar', 1000), 100, 200)).toMatch(/^M100,-22\.225L.*Z$/);
  });
});

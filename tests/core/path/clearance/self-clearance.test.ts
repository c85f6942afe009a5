/** Least gaps of a tube with itself: what counts as coming back past itself, and how near. */

import { describe, expect, test } from 'vitest';
import { selfClearance } from '../../../../core/path/clearance/clearance.ts';
import { pointAt, type Span, type TubePath, tracePrimary } from '../../../../core/path/trace-primary.ts';
import { expectWithin } from '../../../tolerance.ts';
import { bend, foundValue, pathOf, pieCut, primaryOf, seededRandom, straight } from '../made-primaries.ts';

describe('a tube with itself', () => {
  test('the legs of a U-bend are twice its CLR apart', () => {
    const found = selfClearance(pathOf([straight(100), bend(60, 180, 0), straight(80)]), 40);
    expectWithin(found?.gapMm ?? Number.NaN, 80, 1e-6);
    expect([found?.pieceIndexA, found?.pieceIndexB].every((index) => index !== undefined)).toBe(true);
  });

  test('two 90s and a straight of 30 between: the legs are 2 CLR + 30 apart', () => {
    const found = selfClearance(
      pathOf([straight(100), bend(60, 90, 0), straight(30), bend(60, 90, 0), straight(80)]),
      40,
    );
    expectWithin(found?.gapMm ?? Number.NaN, 110, 1e-6);
  });

  test('what has not turned by 180 degrees cannot touch itself', () => {
    expect(selfClearance(pathOf([straight(100), bend(60, 170, 0), straight(80)]), 40)).toBeNull();
    expect(selfClearance(pathOf([straight(1), bend(60, 5, 0), straight(1)]), 40)).toBeNull();
    expect(selfClearance(pathOf([]), 40)).toBeNull();
  });

  test('a loop that comes back through its first straight overlaps it', () => {
    // Three quarters of a turn with straights of equal length cross the first straight in its own plane.
    const loop = [straight(200), bend(60, 270, 0), straight(200)];
    const found = selfClearance(pathOf(loop), 40);
    expectWithin(found?.centreDistanceMm ?? Number.NaN, 0, 1e-6);
    expect([found?.pieceIndexA, found?.pieceIndexB]).toEqual([0, 2]);
  });

  test('a coil of two U-bends tilted against each other', () => {
    const found = selfClearance(pathOf([bend(60, 180, 0), straight(50), bend(60, 180, 10), straight(50)]), 40);
    // The second U swings the end over the start on a circle of 120 about the first leg's end: a chord of 10 degrees.
    expectWithin(found?.centreDistanceMm ?? Number.NaN, 240 * Math.sin((5 * Math.PI) / 180), 1e-6);
    expect(found?.gapMm ?? Number.NaN).toBeLessThan(0);
  });

  test('mitres count as turns', () => {
    const found = selfClearance(pathOf([straight(100), pieCut(60, 180, 0, 6), straight(80)]), 40);
    expectWithin(found?.gapMm ?? Number.NaN, 80, 1e-6);
  });

  test('a bend of 182.3 degrees comes back beside the straight before it, its end and not the nearest of its parts', () => {
    const found = selfClearance(pathOf([straight(100), bend(55.6, 182.3, 0)]), 40);
    // The end lies r - r cos(182.3) to the side of the straight, and back beside it.
    expectWithin(found?.gapMm ?? Number.NaN, 55.6 * (1 + Math.cos((2.3 * Math.PI) / 180)) - 40, 1e-6);
    expect([found?.pieceIndexA, found?.pieceIndexB]).toEqual([0, 1]);
  });

  test('of a bend alone its two ends are the nearest once it has turned by 180 degrees', () => {
    const chordMm = (deg: number) => 2 * 60 * Math.sin((deg * Math.PI) / 360);
    for (const deg of [180, 180.001, 182.3, 200, 270, 359.5]) {
      const found = selfClearance(pathOf([bend(60, deg, 0)]), 40);
      expectWithin(found?.centreDistanceMm ?? Number.NaN, chordMm(deg), 1e-6);
    }
    expect(selfClearance(pathOf([bend(60, 179.999, 0)]), 40)).toBeNull();
  });

  test('two bends of 91.15 are one of 182.3', () => {
    const whole = selfClearance(pathOf([straight(30), bend(55.6, 182.3, 0), straight(20)]), 40);
    const halves = selfClearance(pathOf([straight(30), bend(55.6, 91.15, 0), bend(55.6, 91.15, 0), straight(20)]), 40);
    expectWithin(halves?.gapMm ?? Number.NaN, whole?.gapMm ?? Number.NaN, 1e-6);
  });
});

interface Place {
  readonly span: Span;
  readonly share: number;
  readonly turnedDeg: number;
}

/** The turn is counted afresh, from the angles of the bends alone. */
function turnAt(path: TubePath, index: number, share: number): number {
  let turnedDeg = 0;
  for (const [at, span] of path.spans.entries()) {
    if (span.kind === 'arc' && at <= index) turnedDeg += span.angleDeg * (at === index ? share : 1);
  }
  return turnedDeg;
}

function apartMm(a: Place, b: Place): number {
  const [p, q] = [pointAt(a.span, a.share), pointAt(b.span, b.share)];
  return Math.hypot(p.x - q.x, p.y - q.y, p.z - q.z);
}

/** The least over a grid of places that are 180 degrees apart, made finer about the best of each pair of spans. */
function sampledMm(path: TubePath, samples: number): { readonly leastMm: number; readonly stepMm: number } {
  const at = (index: number, share: number): Place => ({
    span: path.spans[index] as Span,
    share,
    turnedDeg: turnAt(path, index, share),
  });
  const isFar = (a: Place, b: Place) => b.turnedDeg - a.turnedDeg >= 180 - 1e-6;
  let leastMm = Number.POSITIVE_INFINITY;
  const stepMm = Math.max(...path.spans.map(({ lengthMm }) => lengthMm)) / samples;
  for (let i = 0; i < path.spans.length; i += 1) {
    for (let j = i; j < path.spans.length; j += 1) {
      let best = { a: 0, b: 0, mm: Number.POSITIVE_INFINITY };
      const look = (a: number, b: number) => {
        if (a < 0 || a > 1 || b < 0 || b > 1) return;
        const [one, other] = [at(i, a), at(j, b)];
        const mm = isFar(one, other) ? apartMm(one, other) : Number.POSITIVE_INFINITY;
        if (mm < best.mm) best = { a, b, mm };
      };
      for (let a = 0; a <= samples; a += 1) for (let b = 0; b <= samples; b += 1) look(a / samples, b / samples);
      for (let step = 1 / samples; step > 1e-6 && best.mm < Number.POSITIVE_INFINITY; step /= 2) {
        const { a, b } = best;
        for (const da of [-step, 0, step]) for (const db of [-step, 0, step]) look(a + da, b + db);
      }
      leastMm = Math.min(leastMm, best.mm);
    }
  }
  return { leastMm, stepMm };
}

test('40 random tubes: never more than a grid finds, and less by no more than its step (seed 41)', () => {
  const random = seededRandom(41);
  let compared = 0;
  let alike = 0;
  for (let round = 0; round < 40; round += 1) {
    const pieces = Array.from({ length: 5 }, () =>
      random() < 0.35
        ? straight(10 + random() * 120)
        : bend(40 + random() * 60, 20 + random() * 200, random() * 360 - 180),
    );
    const primary = primaryOf(pieces);
    const path = foundValue(tracePrimary(primary, primary.port));
    const { leastMm, stepMm } = sampledMm(path, 24);
    const found = selfClearance(path, 0);
    if (found === null) {
      expect(leastMm).toBe(Number.POSITIVE_INFINITY);
      continue;
    }
    compared += 1;
    expect(found.gapMm).toBeLessThanOrEqual(leastMm + 1e-6);
    expect(found.gapMm).toBeGreaterThanOrEqual(leastMm - 2 * stepMm);
    expect(found.errorMm).toBeLessThanOrEqual(0.0041);
    if (found.gapMm > leastMm - 0.01) alike += 1;
  }
  expect(compared).toBeGreaterThan(25);
  // The grid made finer is mostly the least itself; it stalls where the turn between two places is just enough.
  expect(alike).toBeGreaterThan(0.9 * compared);
});

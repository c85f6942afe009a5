/** Two bends between two poses: published-like check values, nothing missed, nothing off. */

import { describe, expect, it } from 'vitest';
import type { Vector } from '../../../core/path/vector.ts';
import { angleBetweenRad, distance } from '../../../core/path/vector.ts';
import { shortestTwoBends, twoBendsFrom, twoBendsOfLength } from '../../../core/propose/few/all-two-bends.ts';
import { TwoBendFamily } from '../../../core/propose/few/two-bends.ts';
import {
  reversedEnds,
  reversedShape,
  shapeEnd,
  shapeLengthMm,
  type TubeEnds,
  type TubeShape,
} from '../../../core/propose/joints/tube-shape.ts';
import { degreesOf } from '../../../core/units/angle.ts';
import { expectWithin, expectWithinDeg } from '../../tolerance.ts';
import { ALONG_X, poseAt, seededRandom } from '../path/made-primaries.ts';
import { type DenseQuestion, denseTwoBends, type Triple } from './dense-two-bends.ts';
import { anywhere, endsOf, frameOf, headerLike, type PosePair, tight } from './made-poses.ts';

const { EVENRUN_LONG } = process.env;
const PAIRS = EVENRUN_LONG === '1' ? 10_000 : 120;
const DENSITY = EVENRUN_LONG === '1' ? { clockings: 180, angles: 90 } : { clockings: 120, angles: 60 };

const CLR_MM = 76.2;
const LEAST = (mm: number) => ({ firstMm: mm, betweenMm: 0, lastMm: mm });

/** The port at the origin along x, up z, as in the rows. */
function rowEnds(at: Vector, direction: Vector): TubeEnds {
  const up = Math.abs(direction.z) > 0.9 ? { x: 1, y: 0, z: 0 } : { x: 0, y: 0, z: 1 };
  return { start: frameOf(ALONG_X), wanted: frameOf(poseAt(at, direction, { ...up, x: up.x + 0.1 })) };
}

const PR_1 = rowEnds({ x: 180, y: -420, z: 260 }, { x: 0, y: -0.6, z: 0.8 });
const PR_2 = rowEnds({ x: 250, y: -350, z: -120 }, { x: 0, y: -1, z: 0 });

/** Computed by two methods that agree: rows PR-1 to PR-4. */
describe('the rows of check values', () => {
  it.each([
    ['PR-1', PR_1, [75.8207, 26.1], 415.561464, 551.109861],
    ['PR-2', PR_2, [59.1738, 36.3351], 335.166468, 462.187594],
  ] as const)('%s: arc, straight, arc', (_, ends, [first, second], middleMm, lengthMm) => {
    const family = new TwoBendFamily(ends, [CLR_MM, CLR_MM], 400);
    const ways = family.ofLast(0, 0).filter(({ way }) => way.middleMm >= 0);
    expect(ways).toHaveLength(1);
    const shape = family.shape(ways[0] as (typeof ways)[number]);
    expectWithinDeg(degreesOf(shape.bends[0]?.angleRad ?? 0), first, 1e-3);
    expectWithinDeg(degreesOf(shape.bends[1]?.angleRad ?? 0), second, 1e-3);
    expectWithin(shape.straightsMm[1] ?? 0, middleMm, 1e-5);
    expectWithin(shapeLengthMm(shape), lengthMm, 1e-5);
  });

  it('PR-3: the least with end straights of at least 38.1 mm', () => {
    const shape = shortestTwoBends({ ends: PR_1, clrsMm: [CLR_MM, CLR_MM], least: LEAST(38.1) });
    expectShape(shape, [38.1, 60.8641983, 80.0131394, 367.9966501, -68.7132545, 25.8757139, 38.1], 585.0225658);
  });

  it('PR-4: 609.6 mm long with a first straight of 50 mm', () => {
    const question = { ends: PR_1, clrsMm: [CLR_MM, CLR_MM] as const, least: LEAST(38.1) };
    const shapes = twoBendsFrom(question, 50, 609.6);
    const wanted = shapes.find(({ straightsMm }) => Math.abs((straightsMm[2] ?? 0) - 151.76) < 0.1) ?? null;
    expectShape(wanted, [50, 69.1516049, 78.6649754, 257.9862298, -72.7178179, 34.0097939, 151.7629873], 609.6);
  });
});

/** First straight, then clocking, angle and straight of each bend, in mm and degrees; all to 1e-6. */
function expectShape(shape: TubeShape | null, figures: readonly number[], lengthMm: number): void {
  if (shape === null) throw new Error('no tube was found');
  const { straightsMm, bends } = shape;
  expectWithin(straightsMm[0] ?? 0, figures[0] ?? 0, 1e-6);
  for (const [i, { clockingRad, angleRad }] of bends.entries()) {
    expectWithinDeg(degreesOf(clockingRad), figures[3 * i + 1] ?? 0, 1e-6);
    expectWithinDeg(degreesOf(angleRad), figures[3 * i + 2] ?? 0, 1e-6);
    expectWithin(straightsMm[i + 1] ?? 0, figures[3 * i + 3] ?? 0, 1e-6);
  }
  expectWithin(shapeLengthMm(shape), lengthMm, 1e-6);
}

const asTriple = ({ x, y, z }: Vector): Triple => [x, y, z];

function denseQuestion(
  ends: TubeEnds,
  clrsMm: readonly [number, number],
  firstMm: number,
  lengthMm: number,
): DenseQuestion {
  const { start, wanted } = ends;
  return {
    from: [asTriple(start.point), asTriple(start.tangent), asTriple(start.normal)],
    to: [asTriple(wanted.point), asTriple(wanted.tangent)],
    clrsMm,
    firstMm,
    lengthMm,
    leastMm: 12.7,
  };
}

const SHOP_LEAST = { firstMm: 12.7, betweenMm: 12.7, lastMm: 12.7 };
const SHOP_CLRS = [76.2, 101.6];

function pairsOf(
  random: () => number,
): readonly { readonly pair: PosePair; readonly clrsMm: readonly [number, number] }[] {
  const sources = [headerLike, anywhere, tight];
  return Array.from({ length: PAIRS }, (_, i) => {
    const clrsMm = [SHOP_CLRS[i % 2] as number, SHOP_CLRS[(i >> 1) % 2] as number] as const;
    return { pair: (sources[i % 3] as typeof anywhere)(random), clrsMm };
  });
}

/** The first tubes that are met when the first straight is stepped over the whole length. */
function steppedThrough(
  question: Parameters<typeof twoBendsFrom>[0],
  lengthMm: number,
  steps: number,
): readonly TubeShape[] {
  for (let step = 0; step <= steps; step += 1) {
    const shapes = twoBendsFrom(
      question,
      SHOP_LEAST.firstMm + ((lengthMm - SHOP_LEAST.firstMm) * step) / steps,
      lengthMm,
    );
    if (shapes.length > 0) return shapes;
  }
  return [];
}

describe('the whole family', () => {
  it(
    `holds every tube that a dense search of another kind finds (${PAIRS} pairs)`,
    () => {
      const random = seededRandom(1601);
      let compared = 0;
      const missed: string[] = [];
      for (const [i, { pair, clrsMm }] of pairsOf(random).entries()) {
        const ends = endsOf(pair);
        const question = { ends, clrsMm, least: SHOP_LEAST };
        const leastMm = shapeLengthMm(shortestTwoBends(question) ?? { straightsMm: [400], bends: [] });
        const lengthMm = (1.08 + 0.4 * random()) * leastMm;
        const firstMm = 12.7 + 60 * random();
        const shapes = twoBendsFrom(question, firstMm, lengthMm);
        for (const one of denseTwoBends(denseQuestion(ends, clrsMm, firstMm, lengthMm), DENSITY)) {
          compared += 1;
          const isFound = shapes.some(
            (shape) =>
              Math.abs(degreesOf(shape.bends[0]?.angleRad ?? 0) - one.firstDeg) < 1e-3 &&
              Math.abs((shape.straightsMm[2] ?? 0) - one.lastMm) < 1e-2,
          );
          if (!isFound) missed.push(`pair ${i}: ${JSON.stringify(one)}`);
        }
      }
      expect(missed).toEqual([]);
      expect(compared).toBeGreaterThan(PAIRS / 3);
    },
    60 * 60_000,
  );

  it(
    `ends in its inlet to rounding, with no arc over 180 and no straight under the least (${PAIRS} pairs)`,
    () => {
      const random = seededRandom(1602);
      let looked = 0;
      for (const { pair, clrsMm } of pairsOf(random)) {
        const ends = endsOf(pair);
        const question = { ends, clrsMm, least: SHOP_LEAST };
        const least = shortestTwoBends(question);
        if (least === null) continue;
        const lengthMm = shapeLengthMm(least) * (1.05 + 0.35 * random());
        for (const shape of [...twoBendsOfLength(question, lengthMm), least]) {
          looked += 1;
          const end = shapeEnd(ends.start, shape);
          expect(distance(end.point, ends.wanted.point)).toBeLessThan(1e-9);
          expect(angleBetweenRad(end.tangent, ends.wanted.tangent)).toBeLessThan(1e-12);
          for (const { angleRad } of shape.bends) expect(angleRad).toBeLessThanOrEqual(Math.PI);
          for (const mm of shape.straightsMm) expect(mm).toBeGreaterThanOrEqual(12.7 - 1e-6);
          if (shape !== least) expectWithin(shapeLengthMm(shape), lengthMm, 1e-9);
        }
      }
      expect(looked).toBeGreaterThan(PAIRS);
    },
    60 * 60_000,
  );

  it('has no tube shorter than the one that is said to be the shortest, and none where none is said to be', () => {
    const random = seededRandom(1603);
    for (const { pair, clrsMm } of pairsOf(random).slice(0, 90)) {
      const question = { ends: endsOf(pair), clrsMm, least: SHOP_LEAST };
      const least = shortestTwoBends(question);
      const lengths =
        least === null
          ? [300, 500, 700, 900, 1200]
          : [0.999, 0.98, 0.9, 0.7].map((share) => share * shapeLengthMm(least));
      for (const lengthMm of lengths) {
        expect(twoBendsOfLength(question, lengthMm).map(shapeLengthMm)).toEqual([]);
        expect(steppedThrough(question, lengthMm, 60)).toEqual([]);
      }
    }
  });

  it(
    'has a tube wherever its first straight stepped in three hundred parts finds one',
    () => {
      const random = seededRandom(1605);
      let alone = 0;
      for (const { pair, clrsMm } of pairsOf(random)) {
        const question = { ends: endsOf(pair), clrsMm, least: SHOP_LEAST };
        const least = shortestTwoBends(question);
        if (least === null) continue;
        const lengthMm = shapeLengthMm(least) * (1.01 + 0.4 * random());
        if (twoBendsOfLength(question, lengthMm).length > 0) continue;
        alone += 1;
        expect(steppedThrough(question, lengthMm, 300)).toEqual([]);
      }
      expect(alone).toBeLessThan(PAIRS / 10);
    },
    60 * 60_000,
  );

  it('is the same from its other end', () => {
    const random = seededRandom(1606);
    let looked = 0;
    for (const { pair, clrsMm } of pairsOf(random).slice(0, 30)) {
      const ends = endsOf(pair);
      const least = shortestTwoBends({ ends, clrsMm, least: SHOP_LEAST });
      if (least === null) continue;
      looked += 1;
      const turned = reversedShape(ends, least);
      const end = shapeEnd(reversedEnds(ends).start, turned);
      expect(distance(end.point, ends.start.point)).toBeLessThan(1e-8);
      expect(angleBetweenRad(end.tangent, reversedEnds(ends).wanted.tangent)).toBeLessThan(1e-10);
      expectWithin(shapeLengthMm(turned), shapeLengthMm(least), 1e-9);
    }
    expect(looked).toBeGreaterThan(20);
  });

  /** Baez, Navkar, Becker, ICRA 2024: general poses have at most seven paths of arc, straight, arc; those with arcs up to 180 are some of them. */
  it('has at most seven tubes with both end straights given', () => {
    const random = seededRandom(1604);
    for (const { pair, clrsMm } of pairsOf(random)) {
      const family = new TwoBendFamily(endsOf(pair), clrsMm, 400);
      const ways = family.ofLast(0, 0).filter(({ way }) => way.middleMm >= 0);
      expect(ways.length).toBeLessThanOrEqual(7);
    }
  });
});

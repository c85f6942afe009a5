/** C7: the scatter of the end is what making the tube many times over gives; the reach of a joint is what turning it does. */

import { describe, expect, it } from 'vitest';
import { endReach } from '../../../core/asbuilt/end-scatter.ts';
import { USUAL_TOLERANCES } from '../../../core/asbuilt/shop-tolerances.ts';
import type { Primary } from '../../../core/header/header.ts';
import type { ShopTolerances } from '../../../core/header/measured.ts';
import { type TubePath, tracePrimary } from '../../../core/path/trace-primary.ts';
import { angleBetweenRad, distance, dot, subtract } from '../../../core/path/vector.ts';
import { degreesOf } from '../../../core/units/angle.ts';
import { expectWithin, expectWithinRelative } from '../../tolerance.ts';
import {
  ALONG_X,
  bend,
  foundValue,
  headerOf,
  pieCut,
  primaryOf,
  seededRandom,
  straight,
} from '../path/made-primaries.ts';
import { madeTube, shopTube } from './finished-tubes.ts';

const { EVENRUN_LONG } = process.env;
const TRIALS = EVENRUN_LONG === '1' ? 100_000 : 4_000;
const HEADERS = 20;
const LARGEST_ERROR = 0.05;

const pathOf = (primary: Primary): TubePath => foundValue(tracePrimary(primary, primary.port));

/** Root mean squares of so many tubes, each made within the tolerances. */
function madeOver(primary: Primary, tolerances: ShopTolerances, random: () => number) {
  const { end } = pathOf(primary);
  const sums = { gap: 0, along: 0, tilt: 0 };
  for (let trial = 0; trial < TRIALS; trial += 1) {
    const made = pathOf(madeTube(primary, tolerances, random)).end;
    sums.gap += distance(made.point, end.point) ** 2;
    sums.along += dot(subtract(made.point, end.point), end.tangent) ** 2;
    sums.tilt += angleBetweenRad(made.tangent, end.tangent) ** 2;
  }
  const root = (sum: number) => Math.sqrt(sum / TRIALS);
  return {
    gapMm: root(sums.gap),
    alongMm: root(sums.along),
    asideMm: root(sums.gap - sums.along),
    tiltDeg: degreesOf(root(sums.tilt)),
  };
}

describe('the scatter at the inlet', () => {
  const cases = Array.from({ length: HEADERS }, (_, index) => index + 1);
  it.each(cases)(
    `is what ${TRIALS} tubes scatter by, within 5 in 100 (header %d)`,
    { timeout: 20 * 60_000 },
    (seed) => {
      const random = seededRandom(seed * 65_537);
      const primary = shopTube(random);
      const { scatter } = foundValue(endReach(headerOf([primary]), primary));
      const made = madeOver(primary, USUAL_TOLERANCES, random);
      expectWithinRelative(scatter.gapMm, made.gapMm, LARGEST_ERROR);
      expectWithinRelative(scatter.alongMm, made.alongMm, LARGEST_ERROR);
      expectWithinRelative(scatter.asideMm, made.asideMm, LARGEST_ERROR);
      expectWithinRelative(scatter.tiltDeg, made.tiltDeg, LARGEST_ERROR);
    },
  );

  it('grows in step with the tolerances', () => {
    const primary = shopTube(seededRandom(77));
    const { angleDeg, clockingDeg, length } = USUAL_TOLERANCES;
    const half = {
      angleDeg: angleDeg / 2,
      clockingDeg: clockingDeg / 2,
      length: { ...length, value: length.value / 2 },
    };
    const whole = foundValue(endReach(headerOf([primary]), primary)).scatter;
    const halved = foundValue(endReach(headerOf([primary], { tolerances: half }), primary)).scatter;
    expectWithin(halved.gapMm, whole.gapMm / 2, 1e-9);
    expectWithin(halved.asideMm, whole.asideMm / 2, 1e-9);
  });

  it('is nothing in a shop that makes everything exactly', () => {
    const primary = shopTube(seededRandom(78));
    const exact = { angleDeg: 0, clockingDeg: 0, length: { value: 0, unit: 'mm' } } as const;
    const { scatter, joints } = foundValue(endReach(headerOf([primary], { tolerances: exact }), primary));
    expect(scatter).toEqual({ gapMm: 0, alongMm: 0, asideMm: 0, tiltDeg: 0 });
    expect(joints.every(({ share }) => share === 0)).toBe(true);
  });
});

describe('the reach of a joint', () => {
  it('is the end moved by one degree more at it, for bends and for pies', () => {
    const primary = primaryOf(
      [
        straight(60),
        bend(76.2, 90, 0),
        straight(120),
        pieCut(80, 60, 70, 4),
        straight(90),
        bend(76.2, 45, -110),
        straight(40),
      ],
      { port: ALONG_X },
    );
    const before = pathOf(primary).end.point;
    const turned = 0.001;
    for (const { pieceIndex, clockingMm, angleMm } of foundValue(endReach(headerOf([primary]), primary)).joints) {
      const piece = primary.pieces[pieceIndex];
      if (piece === undefined || piece.kind === 'straight') throw new Error('a bend');
      const moved = (change: object) =>
        distance(
          pathOf({ ...primary, pieces: primary.pieces.with(pieceIndex, { ...piece, ...change }) }).end.point,
          before,
        );
      expectWithin(moved({ clockingDeg: (piece.clockingDeg ?? 0) + turned }) / turned, clockingMm, 1e-3);
      expectWithin(moved({ angleDeg: piece.angleDeg + turned }) / turned, angleMm, 1e-3);
    }
  });

  it('of a single 90 with 100 mm after it is worked by hand', () => {
    // One degree of clocking swings the end about the first straight's axis, from which it is CLR + 100 away; one degree of
    // angle swings it about the bend's centre, from which it is the diagonal of CLR and 100 away.
    const primary = primaryOf([straight(50), bend(76.2, 90, 0), straight(100)], { port: ALONG_X });
    const [joint] = foundValue(endReach(headerOf([primary]), primary)).joints;
    expectWithin(joint?.clockingMm ?? 0, ((76.2 + 100) * Math.PI) / 180, 1e-9);
    expectWithin(joint?.angleMm ?? 0, (Math.hypot(76.2, 100) * Math.PI) / 180, 1e-9);
  });

  it('shares the scatter, and the one to watch has the most of it', () => {
    const primary = shopTube(seededRandom(79));
    const { joints, watch } = foundValue(endReach(headerOf([primary]), primary));
    const shares = joints.map(({ share }) => share);
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeLessThanOrEqual(1);
    expect(shares[watch ?? -1]).toBe(Math.max(...shares));
  });

  it('is not known where a clocking is not recorded', () => {
    const primary = primaryOf([bend(76.2, 90, 0), straight(50), bend(76.2, 90, null), straight(100)]);
    expect(endReach(headerOf([primary]), primary)).toMatchObject({ ok: false, problems: [{ kind: 'pathUnknown' }] });
  });
});

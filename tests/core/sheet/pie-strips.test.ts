/** Strips of pie-cut bends: published cut-backs and ordinates, and pies that fit on each other. */

import { describe, expect, test } from 'vitest';
import { cutBackMm, heelMm, pieChordMm, throatMm } from '../../../core/length/pie-cut.ts';
import { mitreMm, pieStrips } from '../../../core/sheet/strips/pie-strips.ts';
import type { Strip } from '../../../core/sheet/strips/strip.ts';
import { radiansOf } from '../../../core/units/angle.ts';
import { expectWithin } from '../../tolerance.ts';

const STYLE = { kind: 'mm', places: 1 } as const;

function made(bend: { clrMm: number; angleDeg: number; pies: number }, odMm: number): readonly Strip[] {
  const strips = pieStrips({ bend, odMm, mark: '1-2' }, STYLE);
  if (!strips.ok) throw new Error(JSON.stringify(strips.problems));
  return strips.value;
}

function sawLines(strip: Strip | undefined) {
  return (strip?.lines ?? []).filter(({ use }) => use === 'saw').map(({ points }) => points);
}

// M-1: pipingengineer.org, formula for miter fabrication from pipe.
describe('M-1: 90 degrees in 4 joints, R 381, OD 273', () => {
  const bend = { clrMm: 381, angleDeg: 90, pies: 4 };
  const [whole, half] = made(bend, 273);
  test('a pie is 151.6 in the middle and cut back by 27.15', () => {
    expectWithin(pieChordMm(bend), 151.6, 0.05);
    expectWithin(cutBackMm(bend, 273), 27.15, 0.05);
    const [upper = [], lower = []] = sawLines(whole);
    const middle = (points: typeof upper) => (points[0]?.yMm ?? 0) + cutBackMm(bend, 273) * (points === upper ? -1 : 1);
    expectWithin(middle(lower) - middle(upper), 151.6, 0.05);
  });
  test('heel and throat stand in the strip as computed', () => {
    const [upper = [], lower = []] = sawLines(whole);
    const at = (points: typeof upper, share: number) =>
      points[Math.round((points.length - 1) * share)]?.yMm ?? Number.NaN;
    expectWithin(at(lower, 0.5) - at(upper, 0.5), heelMm(bend, 273), 1e-9);
    expectWithin(at(lower, 0) - at(upper, 0), throatMm(bend, 273), 1e-9);
    expectWithin(heelMm(bend, 273), 151.6 + 2 * 27.15, 0.15);
  });
  test('the half pie is 75.8 from its square line', () => {
    const [saw = [], square = []] = sawLines(half);
    expectWithin((square[0]?.yMm ?? 0) - ((saw[0]?.yMm ?? 0) - cutBackMm(bend, 273)), 75.8, 0.05);
  });
});

// M-2: fitterkipurijankari.com, 2020/07/29.
test('M-2: OD 168, 90 degrees in 3 joints is cut back by 22.50', () => {
  expectWithin(cutBackMm({ clrMm: 300, angleDeg: 90, pies: 3 }, 168), 22.5, 0.02);
});

// M-6: pipecalculators.com, cylinder and plane, after Triouleyre: r 57.15, cut 30 degrees.
test('M-6: the ordinate of a template at its heel', () => {
  expectWithin(mitreMm({ clrMm: 300, angleDeg: 60, pies: 1 }, 114.3, 0), 32.99, 0.01);
});

// M-7: a plane cut unrolls to a pure cosine (mathcentral.uregina.ca; cut-the-knot, unfolding).
test('M-7: a cut of 45 degrees unrolls to a cosine of amplitude r and period 2 pi r', () => {
  const bend = { clrMm: 300, angleDeg: 90, pies: 1 };
  for (let deg = 0; deg <= 360; deg += 15) {
    expectWithin(mitreMm(bend, 200, radiansOf(deg)), 100 * Math.cos(radiansOf(deg)), 1e-12);
  }
  const [half] = made(bend, 200);
  expectWithin(half?.widthMm ?? 0, 628.3, 0.05);
});

test('every point of a mitre, wrapped back, lies in the plane of the cut', () => {
  const bend = { clrMm: 76.2, angleDeg: 90, pies: 5 };
  const odMm = 44.45;
  const [whole] = made(bend, odMm);
  const [upper = []] = sawLines(whole);
  const slope = Math.tan(radiansOf(bend.angleDeg / (2 * bend.pies)));
  expect(upper.length).toBeGreaterThan(64);
  for (const { xMm, yMm } of upper) {
    // The heel is half way round, where the cut is highest on the paper.
    const outMm = -(odMm / 2) * Math.cos(xMm / (odMm / 2));
    expectWithin(yMm, cutBackMm(bend, odMm) - outMm * slope, 1e-9);
  }
});

test('cuts that run into each other are refused', () => {
  const strips = pieStrips({ bend: { clrMm: 20, angleDeg: 90, pies: 3 }, odMm: 60, mark: '1-1' }, STYLE);
  expect(strips.ok ? 'made' : strips.problems[0]?.kind).toBe('piesCross');
});

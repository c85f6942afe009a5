/** Copes: published figures, and every point on both tubes. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import { type CopeJoint, checkCope, copeMm, copeRadiusMm } from '../../../core/sheet/strips/cope.ts';
import { copeStrip } from '../../../core/sheet/strips/cope-strip.ts';
import { CHORD_MM } from '../../../core/sheet/strips/sample-curve.ts';
import { radiansOf } from '../../../core/units/angle.ts';
import { expectWithin } from '../../tolerance.ts';

const STYLE = { kind: 'mm', places: 2 } as const;

/** Lengths in whatever unit the source has them: the formula knows none. */
function joint(runOd: number, branchOd: number, angleDeg: number, fields: Partial<CopeJoint> = {}): CopeJoint {
  return { runOdMm: runOd, branchOdMm: branchOd, branchWallMm: 0, angleDeg, offsetMm: 0, cutTo: 'outside', ...fields };
}

function extremes(of: CopeJoint): readonly [low: number, high: number] {
  const all = Array.from({ length: 721 }, (_, at) => copeMm(of, radiansOf(at / 2)));
  return [Math.min(...all), Math.max(...all)];
}

// Source of K-1 and K-2: machinecalcs.com, pipe saddle: the worked example and the default case.
describe('K-1: a 2 in branch square on a 6 in run', () => {
  const of = joint(6, 2, 90);
  test('its long and short sides', () => {
    const [low, high] = extremes(of);
    expectWithin(high, 3, 0.005);
    expectWithin(low, 2.83, 0.005);
    expectWithin(high - low, 0.172, 0.005);
    expectWithin(low, 2.82843, 5e-6);
  });
  test.each([
    [1 / 8, 0.085],
    [1 / 4, 0.172],
    [3 / 8, 0.085],
    [1 / 2, 0],
  ])('drops at %d of the way round by %d', (share, drop) => {
    expectWithin(3 - copeMm(of, 2 * Math.PI * share), 3 - Math.sqrt(9 - Math.sin(2 * Math.PI * share) ** 2), 1e-12);
    expectWithin(copeMm(of, 0) - copeMm(of, 2 * Math.PI * share), drop, 0.005);
  });
});

test('K-2: a 2.375 in branch square on a 6.625 in run', () => {
  const of = joint(6.625, 2.375, 90);
  const [low, high] = extremes(of);
  expectWithin(high, 3.3125, 5e-5);
  expectWithin(low, 3.0923, 5e-5);
  expectWithin(high - low, 0.22017, 5e-6);
  expectWithin(copeMm(of, 0) - copeMm(of, Math.PI / 4), 0.10819, 5e-6);
});

test('K-3: equal tubes square to each other: R |cos|', () => {
  const of = joint(2, 2, 90);
  for (const [deg, expected] of [
    [0, 1],
    [22.5, 0.9239],
    [45, Math.SQRT1_2],
    [67.5, 0.3827],
  ] as const) {
    expectWithin(copeMm(of, radiansOf(deg)), Math.cos(radiansOf(deg)), 1e-12);
    expectWithin(copeMm(of, radiansOf(deg)), expected, 5e-5);
  }
  expectWithin(copeMm(of, Math.PI / 2), 0, 1e-7);
});

// Steinmetz: the area under the developed curve is 4 R^2, and the cut is half of two ellipses.
test('K-4: area under the strip and length of the cut of equal tubes', () => {
  const of = joint(2, 2, 90);
  const count = 200_000;
  const step = (2 * Math.PI) / count;
  let area = 0;
  let length = 0;
  const place = (turn: number) => [Math.cos(turn), Math.sin(turn), copeMm(of, turn)] as const;
  for (let at = 0; at < count; at += 1) {
    area += copeMm(of, (at + 0.5) * step) * step;
    const [a, b] = [place(at * step), place((at + 1) * step)];
    length += Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
  }
  expectWithin(area, 4, 1e-7);
  expectWithin(length, 7.6403956, 1e-6);
});

// K-9: Steinmetz: two equal cylinders square to each other have 16/3 R^3 in common. Summed over the branch's bore: its height
// over the run's axis, both ways, at every radius.
test('K-9: what equal tubes square to each other have in common', () => {
  const count = 400;
  let volume = 0;
  for (let ring = 0; ring < count; ring += 1) {
    const radius = (ring + 0.5) / count;
    const of = joint(2, 2 * radius, 90);
    for (let part = 0; part < count; part += 1) {
      volume += 2 * copeMm(of, ((part + 0.5) / count) * 2 * Math.PI) * radius * ((2 * Math.PI) / count / count);
    }
  }
  expectWithin(volume, 16 / 3, 2e-5);
});

// K-5 and K-6: computed from the formula by a second program; rows of the project's own check values.
test.each([
  [3, 1.75, 45, [1.2463, 1.2594, 1.3137, 1.452, 1.723, 2.1217, 2.5512, 2.8762, 2.9963]],
  [2, 1.75, 60, [0.6495, 0.6213, 0.5499, 0.4864, 0.559, 0.873, 1.2644, 1.5548, 1.6599]],
])('a run of %d, a branch of %d at %d degrees, at every sixteenth', (run, branch, deg, expected) => {
  const of = joint(run, branch, deg);
  for (const [at, along] of expected.entries()) expectWithin(copeMm(of, radiansOf(22.5 * at)), along, 5e-5);
});

const joints = fc
  .record({
    runOdMm: fc.double({ min: 10, max: 200, noNaN: true }),
    share: fc.double({ min: 0.1, max: 1, noNaN: true }),
    wallShare: fc.double({ min: 0, max: 0.3, noNaN: true }),
    angleDeg: fc.double({ min: 15, max: 165, noNaN: true }),
    aside: fc.double({ min: -1, max: 1, noNaN: true }),
    cutTo: fc.constantFrom('inside' as const, 'outside' as const),
  })
  .map(({ runOdMm, share, wallShare, angleDeg, aside, cutTo }): CopeJoint => {
    const branchOdMm = runOdMm * share;
    const made = { runOdMm, branchOdMm, branchWallMm: wallShare * branchOdMm, angleDeg, offsetMm: 0, cutTo };
    return { ...made, offsetMm: aside * (runOdMm / 2 - copeRadiusMm(made)) * 0.999 };
  });

/** The run lies along x; the branch leaves it upwards, leaning towards x below 90 degrees, and is moved along y. */
function wrappedBack(of: CopeJoint, turnRad: number): readonly [x: number, y: number, z: number] {
  const lean = radiansOf(of.angleDeg);
  const along = copeMm(of, turnRad);
  const radius = copeRadiusMm(of);
  const [up, across] = [radius * Math.cos(turnRad), radius * Math.sin(turnRad)];
  return [
    along * Math.cos(lean) - up * Math.sin(lean),
    across + of.offsetMm,
    along * Math.sin(lean) + up * Math.cos(lean),
  ];
}

test('every point of a cope, wrapped back, lies on both tubes', () => {
  fc.assert(
    fc.property(joints, fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }), (of, turnRad) => {
      const [x, y, z] = wrappedBack(of, turnRad);
      expectWithin(Math.hypot(y, z), of.runOdMm / 2, 1e-9);
      // Distance from the branch's axis, which runs through (0, offset, 0) along (cos b, 0, sin b).
      const lean = radiansOf(of.angleDeg);
      const along = x * Math.cos(lean) + z * Math.sin(lean);
      const [dx, dy, dz] = [x - along * Math.cos(lean), y - of.offsetMm, z - along * Math.sin(lean)];
      expectWithin(Math.hypot(dx, dy, dz), copeRadiusMm(of), 1e-9);
    }),
    { numRuns: 2000 },
  );
});

/** The lowest point of the cut, mm: half degrees first, then ever finer about the lowest, for it may lie in a sharp dip. */
function lowestMm(of: CopeJoint): number {
  let [lowestDeg, stepDeg] = [0, 0.5];
  const heightAt = (deg: number) => copeMm(of, radiansOf(deg));
  for (const steps of [720, 40, 40, 40, 40]) {
    const tried = Array.from({ length: steps + 1 }, (_, at) => lowestDeg + (at - steps / 2) * stepDeg);
    lowestDeg = tried.reduce((low, deg) => (heightAt(deg) < heightAt(low) ? deg : low));
    stepDeg /= 20;
  }
  return heightAt(lowestDeg);
}

test('the points of the strip are those of the formula, and its chords stay with them', () => {
  fc.assert(
    fc.property(joints, (of) => {
      const made = copeStrip(of, STYLE);
      if (!made.ok) throw new Error(JSON.stringify(made.problems));
      const saw = made.value.lines.find(({ use }) => use === 'saw')?.points ?? [];
      const low = lowestMm(of);
      const turnOf = (xMm: number) => xMm / (of.branchOdMm / 2);
      saw.forEach(({ xMm, yMm }, at) => {
        expectWithin(yMm, copeMm(of, turnOf(xMm)) - low, 0.01);
        const next = saw[at + 1];
        if (next === undefined) return;
        const [dx, dy] = [next.xMm - xMm, next.yMm - yMm];
        for (let step = 1; step < 16; step += 1) {
          const x = (dx * step) / 16;
          const y = copeMm(of, turnOf(xMm + x)) - copeMm(of, turnOf(xMm));
          expect(Math.abs(x * dy - y * dx) / Math.hypot(dx, dy)).toBeLessThan(CHORD_MM);
        }
      });
      expectWithin(made.value.widthMm, Math.PI * of.branchOdMm, 1e-9);
    }),
    { numRuns: 50 },
  );
});

// Where the branch leans over the run its wall meets it farther out, so the acute side is where the sleeve is shortest.
test.each([
  [45, 'obtuse side', 'acute side'],
  [135, 'acute side', 'obtuse side'],
  [90, 'along the run', 'along the run'],
])('at %d degrees the edge of the strip is the %s, its middle the %s', (angleDeg, edge, middle) => {
  const made = copeStrip(joint(60, 40, angleDeg), STYLE);
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  const { labels, lines, widthMm } = made.value;
  const sides = labels.filter(({ text }) => !text.startsWith('run'));
  expect(sides.map(({ text }) => text)).toEqual([edge, middle]);
  expect(sides.map(({ at: { xMm } }) => Math.round((2 * xMm) / widthMm))).toEqual([0, 1]);
  const saw = lines.find(({ use }) => use === 'saw')?.points ?? [];
  const downAt = (share: number) => saw[Math.round((saw.length - 1) * share)]?.yMm ?? Number.NaN;
  if (angleDeg === 90) expectWithin(downAt(0), downAt(0.5), 1e-9);
  else expect(downAt(0) > downAt(0.5) ? edge : middle).toBe('acute side');
});

test.each([
  [joint(50, 60, 90), 'copePastRun'],
  [joint(50, 40, 90, { offsetMm: 6 }), 'copePastRun'],
  [joint(50, 40, 5), 'stripFigure'],
  [joint(50, 40, Number.NaN), 'stripFigure'],
  [joint(0, 40, 90), 'stripFigure'],
  [joint(50, Number.POSITIVE_INFINITY, 90), 'stripFigure'],
  [joint(50, 40, 90, { branchWallMm: 20 }), 'stripWall'],
])('what cannot be cut is refused in words: %o', (of, kind) => {
  const checked = checkCope(of);
  if (checked.ok) throw new Error('was taken');
  expect(checked.problems[0]?.kind).toBe(kind);
  for (const problem of checked.problems) expect(describeProblem(problem)).toMatch(/^[A-Z].{30,}[.]$/);
});

test('cut to the inside, a branch as wide as its run still fits with its bore', () => {
  expect(checkCope(joint(50, 50, 90, { branchWallMm: 2, cutTo: 'inside', offsetMm: 1 })).ok).toBe(true);
});

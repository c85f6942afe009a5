/** Which primary is short: targets, bands and verdicts, worked by hand and as laws. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Header, Target } from '../../../core/header/header.ts';
import { BAND_SLACK_MM } from '../../../core/length/band.ts';
import { countsInMean, matchHeader } from '../../../core/length/match-header.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { leastMs, limitHere } from '../../cpu-time.ts';
import { expectWithin } from '../../tolerance.ts';
import { bend, header, pieCut, primary, straight } from './header-of-pieces.ts';

const RUNS = { numRuns: 2000 };

/** One straight a primary, so that lengths are what they say; null is a primary without pieces. */
function headerOfLengths(
  lengthsMm: readonly (number | null)[],
  target: Target,
  toleranceMm: readonly [number, number] = [2, 2],
): Header {
  const primaries = lengthsMm.map((mm, index) => primary(`p${index}`, mm === null ? [] : [straight(millimetres(mm))]));
  const [minus, plus] = [millimetres(toleranceMm[0]), millimetres(toleranceMm[1])];
  return header(primaries, { target, tolerance: { minus, plus } });
}

const TARGETS: readonly Target[] = [
  { kind: 'longest' },
  { kind: 'mean' },
  { kind: 'primary', primaryId: 'p0' },
  { kind: 'typed', length: millimetres(900) },
];

describe('the target', () => {
  test('longest: the farthest primary sets the length (common practice) and the others are short of it', () => {
    const report = matchHeader(headerOfLengths([900, 911, 898], { kind: 'longest' }));
    expect(report.targetMm).toBe(911);
    expect(report.targetPrimaryId).toBe('p1');
    expect(report.primaries.map(({ deviationMm }) => deviationMm)).toEqual([-11, 0, -13]);
    expect(report.primaries.map(({ verdict }) => verdict)).toEqual(['short', null, 'short']);
    expect([report.lowMm, report.highMm]).toEqual([909, 913]);
    expect([report.spreadMm, report.meanMm, report.worstPrimaryId]).toEqual([13, 903, 'p2']);
  });

  test('longest: the first of equals is the target, and the first of equally bad ones the worst', () => {
    const report = matchHeader(headerOfLengths([890, 911, 911, 890], { kind: 'longest' }));
    expect([report.targetPrimaryId, report.worstPrimaryId]).toEqual(['p1', 'p0']);
  });

  test('mean: of the primaries that have pieces', () => {
    const report = matchHeader(headerOfLengths([900, null, 910, 902], { kind: 'mean' }));
    expect(report.targetMm).toBe(904);
    expect(report.targetPrimaryId).toBeNull();
    expect(report.primaries.map(({ verdict }) => verdict)).toEqual(['short', null, 'long', 'inBand']);
    expect(report.worstPrimaryId).toBe('p2');
  });

  test('primary: the one chosen, whatever the others are', () => {
    const report = matchHeader(headerOfLengths([905, 900, 899.5], { kind: 'primary', primaryId: 'p1' }));
    expect([report.targetMm, report.targetPrimaryId]).toEqual([900, 'p1']);
    expect(report.primaries.map(({ deviationMm }) => deviationMm)).toEqual([5, 0, -0.5]);
    expect(report.primaries.map(({ verdict }) => verdict)).toEqual(['long', null, 'inBand']);
    expect(report.primaries.map(({ side }) => side)).toEqual(['long', 'inBand', 'inBand']);
  });

  test('primary: no target while the one chosen has no pieces, or is not there', () => {
    const empty = matchHeader(headerOfLengths([905, null], { kind: 'primary', primaryId: 'p1' }));
    expect([empty.targetMm, empty.targetPrimaryId, empty.lowMm]).toEqual([null, 'p1', null]);
    expect(empty.primaries[0]).toMatchObject({ lengthMm: 905, deviationMm: null, verdict: null });
    expect([empty.spreadMm, empty.meanMm, empty.worstPrimaryId]).toEqual([null, null, null]);
    const gone = matchHeader(headerOfLengths([905], { kind: 'primary', primaryId: 'nobody' }));
    expect([gone.targetMm, gone.targetPrimaryId]).toEqual([null, null]);
  });

  test('typed: stands also before anything is built', () => {
    const report = matchHeader(headerOfLengths([null, null], { kind: 'typed', length: inches(36) }));
    expectWithin(report.targetMm ?? Number.NaN, 914.4, 1e-9);
    expect(report.primaries.map(({ lengthMm, verdict }) => [lengthMm, verdict])).toEqual([
      [0, null],
      [0, null],
    ]);
    expect([report.spreadMm, report.meanMm, report.worstPrimaryId]).toEqual([null, null, null]);
  });

  test.each(TARGETS)('%o: a header without primaries has nothing to report', (target) => {
    const report = matchHeader(headerOfLengths([], target));
    expect(report.primaries).toEqual([]);
    expect(report.targetMm).toBe(target.kind === 'typed' ? 900 : null);
    expect(report.worstPrimaryId).toBeNull();
  });
});

describe('the band', () => {
  test('has its own width below and above', () => {
    const target: Target = { kind: 'typed', length: millimetres(900) };
    const report = matchHeader(headerOfLengths([894.9, 895, 900, 901, 901.1], target, [5, 1]));
    expect(report.primaries.map(({ verdict }) => verdict)).toEqual(['short', 'inBand', 'inBand', 'inBand', 'long']);
  });

  test('includes its edges, with a deviation of 1/16 in summed from sixteenths, bends and millimetres', () => {
    const sixteenth = { minus: inches(1 / 16), plus: inches(1 / 16) };
    for (let sixteenths = 1; sixteenths <= 16 * 60; sixteenths += 1) {
      const shape = [bend(inches(3), 90), straight(millimetres(12.7)), bend(inches(3), 37.5)];
      const primaries = [
        primary('even', [...shape, straight(inches(sixteenths / 16)), straight(inches(1.1))]),
        primary('short', [
          straight(inches(0.7)),
          ...shape,
          straight(inches((sixteenths - 1) / 16)),
          straight(inches(0.4)),
        ]),
        primary('long', [
          straight(inches(0.3)),
          straight(inches((sixteenths + 1) / 16)),
          ...shape,
          straight(inches(0.8)),
        ]),
      ];
      const target: Target = { kind: 'primary', primaryId: 'even' };
      const report = matchHeader(header(primaries, { target, tolerance: sixteenth }));
      expect(report.primaries.map(({ side }) => side)).toEqual(['inBand', 'inBand', 'inBand']);
    }
  });

  test('ends there: a micrometre past an edge is out', () => {
    const target: Target = { kind: 'typed', length: millimetres(900) };
    const report = matchHeader(headerOfLengths([897.999, 898, 902, 902.001], target));
    expect(report.primaries.map(({ verdict }) => verdict)).toEqual(['short', 'inBand', 'inBand', 'long']);
  });

  test('of no width takes the target itself and nothing else', () => {
    const report = matchHeader(headerOfLengths([900, 899.999, 900.001], TARGETS[3] ?? { kind: 'mean' }, [0, 0]));
    expect(report.primaries.map(({ verdict }) => verdict)).toEqual(['inBand', 'short', 'long']);
  });
});

describe('weld shrinkage', () => {
  test('counts in every length, so that a primary of more joints comes out shorter', () => {
    const primaries = [
      primary('whole', [straight(millimetres(900))]),
      primary('pieced', [straight(millimetres(300)), straight(millimetres(300)), straight(millimetres(300))]),
    ];
    const report = matchHeader(header(primaries, { weldShrinkage: millimetres(0.5) }));
    expect(report.primaries.map(({ lengthMm }) => lengthMm)).toEqual([900, 899]);
    expect(report.primaries[1]?.pieceLengthsMm).toEqual([300, 300, 300]);
  });
});

describe('laws of the report', () => {
  const lengths = fc.array(fc.option(fc.double({ min: 1, max: 3000, noNaN: true }), { freq: 6 }), { maxLength: 16 });
  const target = fc.constantFrom(...TARGETS);

  test('a deviation is length minus target; its sign and size decide the side, which is the verdict of those judged', () => {
    fc.assert(
      fc.property(lengths, target, (lengthsMm, kind) => {
        const report = matchHeader(headerOfLengths(lengthsMm, kind));
        for (const { lengthMm, deviationMm, side, outsideMm, standing, verdict } of report.primaries) {
          if (deviationMm === null) continue;
          expect(deviationMm).toBe(lengthMm - (report.targetMm ?? Number.NaN));
          if (side === 'short') expect(deviationMm).toBeLessThan(-2);
          if (side === 'long') expect(deviationMm).toBeGreaterThan(2);
          if (side === 'inBand') expect(Math.abs(deviationMm)).toBeLessThanOrEqual(2 + 1e-6);
          expect(verdict).toBe(standing === 'judged' ? side : null);
          expectWithin(outsideMm, side === 'inBand' ? 0 : Math.abs(deviationMm) - 2, 1e-9);
        }
      }),
      RUNS,
    );
  });

  test('nobody is long of the longest; deviations from the mean add to nothing; the worst is worst', () => {
    fc.assert(
      fc.property(lengths, target, (lengthsMm, kind) => {
        const report = matchHeader(headerOfLengths(lengthsMm, kind));
        const deviationsOf = (list: typeof report.primaries) =>
          list.flatMap(({ deviationMm }) => (deviationMm === null ? [] : [deviationMm]));
        const deviations = deviationsOf(report.primaries);
        if (kind.kind === 'longest') expectWithin(Math.max(0, ...deviations), 0, BAND_SLACK_MM);
        if (kind.kind === 'mean')
          expectWithin(
            deviationsOf(report.primaries.filter(countsInMean)).reduce((sum, mm) => sum + mm, 0),
            0,
            1e-8,
          );
        const worst = report.primaries.find(({ primaryId }) => primaryId === report.worstPrimaryId);
        const judged = deviationsOf(report.primaries.filter(({ verdict }) => verdict !== null));
        expectWithin(Math.abs(worst?.deviationMm ?? 0), Math.max(0, ...judged.map(Math.abs)), BAND_SLACK_MM);
      }),
      RUNS,
    );
  });

  test('a primary without pieces changes no figure of the others', () => {
    fc.assert(
      fc.property(lengths, target, (lengthsMm, kind) => {
        const without = matchHeader(headerOfLengths(lengthsMm, kind));
        const { primaries, ...figures } = matchHeader(headerOfLengths([...lengthsMm, null], kind));
        // Where the list was empty, p0 is the primary without pieces that was added.
        fc.pre(lengthsMm.length > 0);
        expect({ ...figures, primaries: primaries.slice(0, -1) }).toEqual(without);
      }),
      RUNS,
    );
  });

  test('the spread is the longest minus the shortest of the whole ones, and the order of primaries matters to no figure but ties', () => {
    fc.assert(
      fc.property(lengths, (lengthsMm) => {
        const longestMm = Math.max(0, ...lengthsMm.map((mm) => mm ?? 0));
        // A primary short of the band and by more than a tenth is still being built, and counts for nothing yet.
        const whole = lengthsMm.filter(
          (mm) => mm !== null && mm >= Math.min(0.9 * longestMm, longestMm - 2),
        ) as readonly number[];
        fc.pre(whole.length > 1);
        // Within rounding of these edges either may be said.
        fc.pre(
          [0.9 * longestMm, longestMm - 2].every((edge) => lengthsMm.every((mm) => Math.abs((mm ?? 0) - edge) > 1e-6)),
        );
        const forwards = matchHeader(headerOfLengths(lengthsMm, { kind: 'longest' }));
        const backwards = matchHeader(headerOfLengths(lengthsMm.toReversed(), { kind: 'longest' }));
        expect(forwards.spreadMm).toBe(Math.max(...whole) - Math.min(...whole));
        expect(backwards.spreadMm).toBe(forwards.spreadMm);
        expectWithin(backwards.targetMm ?? Number.NaN, forwards.targetMm ?? Number.NaN, BAND_SLACK_MM);
      }),
      RUNS,
    );
  });

  test('the report is of the header given and leaves it as it was', () => {
    const before = headerOfLengths([900, null, 910], { kind: 'mean' });
    const copy = structuredClone(before);
    expect(matchHeader(before)).toEqual(matchHeader(copy));
    expect(before).toEqual(copy);
  });
});

describe('cost', () => {
  test('8 primaries of 20 pieces are matched in under 50 microseconds', () => {
    const piecesOf = (primaryIndex: number) =>
      Array.from({ length: 20 }, (_, index) => {
        if (index % 2 === 0) return straight(inches(1 + (index + primaryIndex) / 16));
        return index % 8 === 7 ? pieCut(inches(3), 45, 3) : bend(inches(3), 15 + index);
      });
    const large = header(Array.from({ length: 8 }, (_, index) => primary(`p${index}`, piecesOf(index))));
    for (let warmUp = 0; warmUp < 2000; warmUp += 1) matchHeader(large);
    expect(leastMs(500, () => matchHeader(large))).toBeLessThan(limitHere(0.05));
  });
});

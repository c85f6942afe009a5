/** What is read off a match report: between which deviations the primaries lie, and which targets it suggests. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { BAND_SLACK_MM, verdictOfDeviation } from '../../../core/length/band.ts';
import { deviationExtent, isMean, roundTarget } from '../../../core/length/deviations.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { inches, MM_PER_INCH, millimetres } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import { header, primary, straight } from './header-of-pieces.ts';

/** A header of primaries that are one straight each, of these lengths in inches. */
const headerOf = (lengthsIn: readonly number[]) =>
  header(lengthsIn.map((lengthIn, index) => primary(`p${index}`, [straight(inches(lengthIn))])));

describe('the bracket under the deviations', () => {
  test('reaches from the least to the greatest, about their mean', () => {
    // Target 36, so −1/2, 0 and −1/4 with a mean of −1/4.
    const extent = deviationExtent(matchHeader(headerOf([35.5, 36, 35.75])));
    expectWithin(extent?.leastMm ?? Number.NaN, -MM_PER_INCH / 2, 1e-9);
    expectWithin(extent?.greatestMm ?? Number.NaN, 0, 1e-9);
    expectWithin(extent?.meanMm ?? Number.NaN, -MM_PER_INCH / 4, 1e-9);
  });

  test('is as long as the spread, whatever the lengths', () => {
    const lengthsIn = fc.array(fc.integer({ min: 1, max: 800 }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(lengthsIn, (sixteenths) => {
        // All within a tenth of the longest, so that all count.
        const report = matchHeader(headerOf(sixteenths.map((count) => 720 + (count % 80)).map((count) => count / 16)));
        const extent = deviationExtent(report);
        if (extent === null) throw new Error('two primaries have an extent');
        expectWithin(extent.greatestMm - extent.leastMm, report.spreadMm ?? Number.NaN, 1e-6);
        expect(extent.meanMm).toBeGreaterThanOrEqual(extent.leastMm - 1e-6);
        expect(extent.meanMm).toBeLessThanOrEqual(extent.greatestMm + 1e-6);
      }),
    );
  });

  test('is not there for fewer than two primaries', () => {
    expect(deviationExtent(matchHeader(headerOf([])))).toBeNull();
    expect(deviationExtent(matchHeader(headerOf([36])))).toBeNull();
  });
});

test('a target to start typing from is the one in force, to the sixteenth or the millimetre', () => {
  expect(roundTarget({ targetMm: 35.19 * MM_PER_INCH }, 'in')).toEqual(inches(35.1875));
  expect(roundTarget({ targetMm: 894.4 }, 'mm')).toEqual(millimetres(894));
  expect(roundTarget({ targetMm: null }, 'in')).toEqual(inches(36));
  expect(roundTarget({ targetMm: 0.2 }, 'mm')).toEqual(millimetres(1));
});

test('a length is the mean when it is, to a hundredth of a millimetre', () => {
  const report = matchHeader(headerOf([35, 36]));
  const meanMm = 35.5 * MM_PER_INCH;
  expect([isMean(meanMm, report), isMean(meanMm + 0.009, report), isMean(meanMm + 0.011, report)]).toEqual([
    true,
    true,
    false,
  ]);
  expect(isMean(0, { meanMm: null })).toBe(false);
});

test('a deviation has the verdict that its primary has', () => {
  const tolerance = { minus: inches(1 / 16), plus: inches(1 / 8) };
  const of = (mm: number) => verdictOfDeviation(mm, tolerance);
  const [lowMm, highMm] = [-MM_PER_INCH / 16, MM_PER_INCH / 8];
  expect([of(lowMm - 2 * BAND_SLACK_MM), of(lowMm), of(0), of(highMm), of(highMm + 2 * BAND_SLACK_MM)]).toEqual([
    'short',
    'inBand',
    'inBand',
    'inBand',
    'long',
  ]);
  const report = matchHeader({ ...headerOf([35, 35.95, 36]), settings: { ...headerOf([]).settings, tolerance } });
  for (const { deviationMm, side } of report.primaries) expect(of(deviationMm ?? Number.NaN)).toBe(side);
});

/** Which targets a match report suggests, and the verdict on a deviation. */

import { expect, test } from 'vitest';
import { BAND_SLACK_MM, verdictOfDeviation } from '../../../core/length/band.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { isMean, roundTarget } from '../../../core/length/target-choices.ts';
import { inches, MM_PER_INCH, millimetres } from '../../../core/units/length.ts';
import { header, primary, straight } from './header-of-pieces.ts';

/** A header of primaries that are one straight each, of these lengths in inches. */
const headerOf = (lengthsIn: readonly number[]) =>
  header(lengthsIn.map((lengthIn, index) => primary(`p${index}`, [straight(inches(lengthIn))])));

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

/** The order of the board's rows, and where the words at a bar's end stand. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { matchHeader } from '../../../core/length/match-header.ts';
import { inches, MM_PER_INCH } from '../../../core/units/length.ts';
import { orderOf } from '../../../renderer/board/board-order.ts';
import { clearOf, wordsPlace } from '../../../renderer/board/rows/board-bar.tsx';
import { header, primary, straight } from '../../core/length/header-of-pieces.ts';
import { scaleOf } from './scale-of.ts';

/** One straight a primary, in inches; 0 is one without pieces. */
function reportOf(lengthsIn: readonly number[]) {
  return matchHeader(
    header(
      lengthsIn.map((lengthIn, index) => primary(`p${index}`, lengthIn === 0 ? [] : [straight(inches(lengthIn))])),
    ),
  );
}

describe('the order of the rows', () => {
  // 36 sets the length; 35, 35.5 and 33 are judged, 10 and 20 still being built.
  const report = reportOf([35, 10, 36, 0, 35.5, 33, 20]);

  test('is that of the header', () => {
    expect(orderOf(report, 'port')).toEqual([0, 1, 2, 3, 4, 5, 6]);
  });

  test('or by miss: the farthest off first, then what has most to go, then the rest', () => {
    expect(orderOf(report, 'miss')).toEqual([5, 0, 4, 1, 6, 2, 3]);
  });

  test('keeps equals in the order of the header', () => {
    expect(orderOf(reportOf([35, 36, 35, 35]), 'miss')).toEqual([0, 2, 3, 1]);
  });
});

describe('the words at a bar', () => {
  const lengths = fc.array(fc.integer({ min: 1, max: 16 * 50 }), { minLength: 2, maxLength: 6 });

  test('stand outside of the bar, on the side away from the target, within the track', () => {
    fc.assert(
      fc.property(lengths, fc.integer({ min: 250, max: 1500 }), (sixteenths, widthPx) => {
        const report = reportOf(sixteenths.map((count) => count / 16));
        const scale = scaleOf(2 * MM_PER_INCH, widthPx);
        for (const match of report.primaries) {
          const { side, atPx } = wordsPlace(match, scale);
          expect(atPx).toBeGreaterThan(0);
          expect(atPx).toBeLessThan(widthPx);
          const endPx = scale.x(match.deviationMm ?? 0);
          if (side === 'left') expect(atPx).toBeLessThan(Math.min(endPx, scale.x(0)));
          else expect(atPx).toBeGreaterThan(endPx);
        }
      }),
    );
  });

  test('of a move stand across the target from those of now, and clear of both bars', () => {
    const scale = scaleOf(2 * MM_PER_INCH, 600);
    const [short, setter, long] = matchHeader(
      header(
        [35, 36, 36.5].map((lengthIn, index) => primary(`p${index}`, [straight(inches(lengthIn))])),
        { target: { kind: 'primary', primaryId: 'p1' } },
      ),
    ).primaries;
    if (short === undefined || setter === undefined || long === undefined) throw new Error('three were made');
    expect([wordsPlace(short, scale).side, wordsPlace(setter, scale).side, wordsPlace(long, scale).side]).toEqual([
      'left',
      'right',
      'right',
    ]);
    expect(clearOf(long, 'right', scale)).toBeGreaterThan(scale.x(long.deviationMm ?? 0));
    expect(clearOf(short, 'right', scale)).toBeGreaterThan(scale.x(0));
    expect(clearOf(short, 'left', scale)).toBeLessThan(scale.x(short.deviationMm ?? 0));
  });
});

/** The scales of the match board: ticks and their labels, strips, deviations and clamps. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Header, Piece } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { BAND_SLACK_MM } from '../../../core/length/band.ts';
import { matchHeader } from '../../../core/length/match-header.ts';
import { formatDeviation } from '../../../core/units/format-length.ts';
import { inches, MM_PER_INCH } from '../../../core/units/length.ts';
import type { LengthStyle } from '../../../core/units/length-style.ts';
import { DISPLAY_CHOICES } from '../../../renderer/bench/panels/setting-choices.ts';
import { halfSpanMm } from '../../../renderer/board/scale/deviation-scale.ts';
import { labelTicksMm, lengthTicksMm, niceStepMm } from '../../../renderer/board/scale/length-ticks.ts';
import { fits, fullScale, fullSpanMm, stripSegments } from '../../../renderer/board/strip/strip-layout.ts';
import { expectWithin } from '../../tolerance.ts';
import { scaleOf } from './scale-of.ts';

const SIXTEENTHS: LengthStyle = { kind: 'fraction', per: 16 };
const MILLIMETRES: LengthStyle = { kind: 'mm', places: 0 };
const DECIMALS: LengthStyle = { kind: 'decimalInch', places: 3 };
const STYLES = [SIXTEENTHS, MILLIMETRES, DECIMALS] as const;

const straight = (id: string, lengthIn: number): Piece => ({
  kind: 'straight',
  id,
  length: inches(lengthIn),
  state: 'tacked',
  locked: false,
  note: '',
});

function headerOf(lengthsIn: readonly number[]): Header {
  return {
    ...newHeader({ id: 'h', name: 'Chart' }),
    primaries: lengthsIn.map((lengthIn, index) => ({
      id: `p${index}`,
      name: String(index + 1),
      tube: null,
      port: null,
      inletId: null,
      pieces: [straight(`s${index}`, lengthIn)],
    })),
  };
}

describe('ticks', () => {
  test('36 in at 600 px has a mark every 6 in when labels need 56 px, as a tape would', () => {
    const ticksMm = lengthTicksMm({ fromMm: 0, toMm: 36 * MM_PER_INCH, widthPx: 600 }, 56, SIXTEENTHS);
    expect(ticksMm).toHaveLength(7);
    for (const [index, mm] of ticksMm.entries()) expectWithin(mm, index * 6 * MM_PER_INCH, 1e-9);
  });

  test('in millimetres they fall on tens and fifties', () => {
    const ticksMm = lengthTicksMm({ fromMm: 0, toMm: 900, widthPx: 600 }, 56, MILLIMETRES);
    expect(ticksMm).toEqual([0, 100, 200, 300, 400, 500, 600, 700, 800, 900]);
  });

  test('the finest step of a fraction style is 1/16 in', () => {
    expect(niceStepMm(0.001, SIXTEENTHS)).toBe(MM_PER_INCH / 16);
    expect(niceStepMm(1e9, SIXTEENTHS)).toBe(600 * MM_PER_INCH);
  });

  test('no width or no span gives no ticks', () => {
    expect(lengthTicksMm({ fromMm: 0, toMm: 100, widthPx: 0 }, 50, SIXTEENTHS)).toEqual([]);
    expect(lengthTicksMm({ fromMm: 5, toMm: 5, widthPx: 100 }, 50, SIXTEENTHS)).toEqual([]);
    expect(lengthTicksMm({ fromMm: 0, toMm: Number.NaN, widthPx: 100 }, 50, SIXTEENTHS)).toEqual([]);
  });

  test('are no finer than what is shown', () => {
    const range = { fromMm: -25.4, toMm: 25.4, widthPx: 2000 };
    const step = (style: LengthStyle) => {
      const [first = 0, second = 0] = lengthTicksMm(range, 1, style);
      return (second - first) / (style.kind === 'mm' ? 1 : MM_PER_INCH);
    };
    expectWithin(step({ kind: 'fraction', per: 8 }), 1 / 8, 1e-9);
    expectWithin(step({ kind: 'fraction', per: 64 }), 1 / 64, 1e-9);
    expectWithin(step({ kind: 'decimalInch', places: 2 }), 0.01, 1e-9);
    expectWithin(step(MILLIMETRES), 1, 1e-9);
    expectWithin(step({ kind: 'mm', places: 1 }), 0.1, 1e-9);
  });

  test('labels never meet, and are there', () => {
    const styles: readonly LengthStyle[] = DISPLAY_CHOICES.map(({ style }) => style);
    const halves = fc.constantFrom(0.25, 0.5, 1, 2, 4, 8, 5 / 25.4, 100 / 25.4, 11.3);
    fc.assert(
      fc.property(halves, fc.integer({ min: 90, max: 1200 }), fc.constantFrom(...styles), (halfIn, widthPx, style) => {
        const toMm = halfIn * MM_PER_INCH;
        const labelPx = (mm: number) => formatDeviation(mm, style).length * 8 + 8;
        const ticksMm = labelTicksMm({ fromMm: -toMm, toMm, widthPx }, labelPx, style);
        expect(ticksMm.length).toBeGreaterThan(0);
        const px = (mm: number) => ((mm + toMm) / (2 * toMm)) * widthPx;
        for (const [index, mm] of ticksMm.entries()) {
          const before = ticksMm[index - 1];
          if (before === undefined) continue;
          expect(px(mm) - labelPx(mm) / 2).toBeGreaterThanOrEqual(px(before) + labelPx(before) / 2 - 1e-6);
        }
        expect(new Set(ticksMm.map((mm) => formatDeviation(mm, style))).size).toBe(ticksMm.length);
      }),
    );
  });

  test('ticks are within the range, on whole steps, and never closer than asked', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 1e4, noNaN: true }),
        fc.integer({ min: 50, max: 2000 }),
        fc.constantFrom(...STYLES),
        (spanMm, widthPx, style) => {
          const gapPx = 40;
          const ticksMm = lengthTicksMm({ fromMm: 0, toMm: spanMm, widthPx }, gapPx, style);
          for (const [index, mm] of ticksMm.entries()) {
            expect(mm).toBeGreaterThanOrEqual(0);
            expect(mm).toBeLessThanOrEqual(spanMm * (1 + 1e-6) + 1e-6);
            const before = ticksMm[index - 1];
            if (before !== undefined) expect(((mm - before) / spanMm) * widthPx).toBeGreaterThanOrEqual(gapPx * 0.999);
          }
        },
      ),
    );
  });
});

describe('the strip', () => {
  test('segments follow each other from zero to the sum of the pieces', () => {
    const pieces = [straight('a', 1), straight('b', 2), straight('c', 3)];
    const segments = stripSegments(pieces, [25.4, 50.8, 76.2]);
    expect(segments.map((segment) => [segment.piece.id, segment.fromMm, segment.toMm.toFixed(6)])).toEqual([
      ['a', 0, '25.400000'],
      ['b', 25.4, '76.200000'],
      ['c', segments[1]?.toMm, '152.400000'],
    ]);
    expect(stripSegments([], [])).toEqual([]);
  });

  test('the scale starts at zero and reaches past the longest primary and the band', () => {
    const report = matchHeader(headerOf([30, 36, 20]));
    const spanMm = fullSpanMm(report, SIXTEENTHS);
    expect(spanMm).toBeGreaterThan(36.125 * MM_PER_INCH);
    const scale = fullScale(spanMm, 500);
    expect(scale.x(0)).toBe(0);
    expect(scale.x(spanMm)).toBe(500);
  });

  test('the scale does not move under a sixteenth more or less', () => {
    const spanOf = (lengthIn: number) => fullSpanMm(matchHeader(headerOf([lengthIn])), SIXTEENTHS);
    expect(spanOf(34)).toBe(spanOf(34 + 1 / 16));
    expect(spanOf(34)).toBe(spanOf(34 - 1 / 16));
  });

  test('an empty header still has a scale', () => {
    expect(fullSpanMm(matchHeader(headerOf([])), SIXTEENTHS)).toBe(100);
  });

  test('a label is drawn only where it fits', () => {
    expect(fits('2 1/4', 44, 7.5)).toBe(true);
    expect(fits('2 1/4', 43, 7.5)).toBe(false);
  });
});

describe('the deviation scale', () => {
  const band = { minusMm: MM_PER_INCH / 8, plusMm: MM_PER_INCH / 8 };

  test('1/16 in is at least 3 px at every usual width while all are within an inch', () => {
    const header = headerOf([36, 36 - 1 / 16, 35.25, 12]);
    const deviationsMm = matchHeader(header).primaries.map(({ verdict, deviationMm }) =>
      verdict === null ? null : deviationMm,
    );
    for (const widthPx of [300, 570, 900]) {
      const scale = scaleOf(halfSpanMm({ deviationsMm, band, style: SIXTEENTHS }), widthPx);
      expect(Math.abs(scale.x(-MM_PER_INCH / 16) - scale.x(0))).toBeGreaterThanOrEqual(3);
    }
  });

  test.each([
    [0.2, SIXTEENTHS, 0.25],
    [0.25, SIXTEENTHS, 0.25],
    [0.26, SIXTEENTHS, 0.5],
    [0.9, DECIMALS, 1],
    [1.5, SIXTEENTHS, 2],
    [4, SIXTEENTHS, 4],
    [7.9, SIXTEENTHS, 8],
    [30, SIXTEENTHS, 8],
    [4.9 / 25.4, MILLIMETRES, 5 / 25.4],
    [60 / 25.4, MILLIMETRES, 100 / 25.4],
    [500 / 25.4, MILLIMETRES, 200 / 25.4],
  ])('with one %d in off, in %o, it reaches %d in either way', (offIn, style, halfIn) => {
    const halfMm = halfSpanMm({
      deviationsMm: [0, -offIn * MM_PER_INCH, null],
      band: { minusMm: 1, plusMm: 1 },
      style,
    });
    expectWithin(halfMm, halfIn * MM_PER_INCH, 1e-9);
  });

  test('everything judged fits it, up to 8 in or 200 mm, with room for a figure beyond', () => {
    const off = fc.array(fc.double({ min: -200, max: 200, noNaN: true }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(
        off,
        fc.integer({ min: 250, max: 2000 }),
        fc.constantFrom(...STYLES),
        fc.constantFrom(14, 18),
        (deviationsMm, widthPx, style, letterPx) => {
          const scale = scaleOf(halfSpanMm({ deviationsMm, band, style }), widthPx, letterPx);
          for (const mm of deviationsMm) {
            expect(scale.clampOf(mm)).toBeNull();
            expect(scale.x(mm)).toBeGreaterThanOrEqual(56);
            expect(scale.x(mm)).toBeLessThanOrEqual(widthPx - 56);
          }
        },
      ),
    );
  });

  test('it shows the whole band, however wide', () => {
    const wide = { minusMm: 80, plusMm: 10 };
    const halfMm = halfSpanMm({ deviationsMm: [0], band: wide, style: MILLIMETRES });
    expect(halfMm).toBeGreaterThan(80);
  });

  test('a deviation past the end is clamped to the edge and says which', () => {
    const scale = scaleOf(25.4, 200);
    expect(scale.clampOf(-30)).toBe('low');
    expect(scale.clampOf(30)).toBe('high');
    expect(scale.clampOf(-25.4)).toBeNull();
    expect(scale.x(-1000)).toBe(scale.x(-25.4));
  });

  test('order along the scale is order of value, and a mark is inside the drawn band exactly when its length is', () => {
    const lengths = fc.array(fc.integer({ min: 16 * 20, max: 16 * 40 }), { minLength: 2, maxLength: 8 });
    fc.assert(
      fc.property(lengths, fc.integer({ min: 200, max: 2000 }), (sixteenths, widthPx) => {
        const report = matchHeader(headerOf(sixteenths.map((count) => count / 16)));
        const deviationsMm = report.primaries.map((match) => match.deviationMm);
        const scale = scaleOf(halfSpanMm({ deviationsMm, band, style: SIXTEENTHS }), widthPx);
        const slackPx = Math.abs(scale.x(BAND_SLACK_MM) - scale.x(0)) + 1e-9;
        for (const match of report.primaries) {
          const xPx = scale.x(match.deviationMm ?? 0);
          const isInside = xPx >= scale.x(-band.minusMm) - slackPx && xPx <= scale.x(band.plusMm) + slackPx;
          expect(isInside).toBe(match.side === 'inBand');
          for (const other of report.primaries) {
            if ((match.deviationMm ?? 0) < (other.deviationMm ?? 0)) {
              expect(xPx).toBeLessThanOrEqual(scale.x(other.deviationMm ?? 0));
            }
          }
        }
      }),
    );
  });
});

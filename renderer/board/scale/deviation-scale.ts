/** The board's one scale: deviation from the target about a common zero, clamped at its ends. */

import * as d3 from 'd3';
import { type LengthStyle, MM_PER_INCH } from '../../../core/index.ts';

/** Half of the scale, in inches and in mm: steps that a fabricator reads at a glance. */
const HALF_SPANS_IN = [1 / 4, 1 / 2, 1, 2, 4, 8] as const;
const HALF_SPANS_MM = [5, 10, 25, 50, 100, 200] as const;

/** A deviation that is over a step by no more than rounding still fits it. */
const ROUNDING_MM = 1e-6;

export interface DeviationInput {
  /** Deviations in mm of those that the scale is to show; nulls are primaries without one. */
  readonly deviationsMm: readonly (number | null)[];
  /** Band below and above the target, both zero or more. */
  readonly band: { readonly minusMm: number; readonly plusMm: number };
  readonly style: LengthStyle;
}

/**
 * Half width of the scale in mm: the least step that shows every deviation and half as much again as the band.
 * What is past the last step is clamped there; a band past it widens the scale.
 */
export function halfSpanMm({ deviationsMm, band, style }: DeviationInput): number {
  const steps = style.kind === 'mm' ? HALF_SPANS_MM : HALF_SPANS_IN.map((step) => step * MM_PER_INCH);
  const last = steps[steps.length - 1] as number;
  const bandMm = Math.max(band.minusMm, band.plusMm) * 1.5;
  const wantedMm = Math.max(bandMm, ...deviationsMm.map((mm) => Math.abs(mm ?? 0)));
  return steps.find((step) => step >= wantedMm - ROUNDING_MM) ?? Math.max(bandMm, last);
}

export type Clamp = 'low' | 'high' | null;

export interface DeviationScale {
  readonly halfMm: number;
  readonly widthPx: number;
  /** Pixels from the left edge for a deviation in mm; never outside the scale. */
  readonly x: (deviationMm: number) => number;
  /** Which end the deviation lies past, if any. */
  readonly clampOf: (deviationMm: number) => Clamp;
}

/** Room left of the scale and right of it for the words at a bar's end: what "to go 23 11/16"" takes, in letters, or a third of the width. */
const WORDS_LETTERS = 9;
const MOST_SHARE = 1 / 3;

export function wordsRoomPx(widthPx: number, letterPx: number): number {
  return Math.min(WORDS_LETTERS * letterPx, MOST_SHARE * widthPx);
}

/** `roomPx` is kept free left and right of the scale. */
export function deviationScale(halfMm: number, widthPx: number, roomPx: number): DeviationScale {
  const x = d3
    .scaleLinear()
    .domain([-halfMm, halfMm])
    .range([roomPx, Math.max(roomPx, widthPx - roomPx)])
    .clamp(true);
  return {
    halfMm,
    widthPx,
    x: (deviationMm) => x(deviationMm),
    clampOf: (deviationMm) =>
      deviationMm < -halfMm - ROUNDING_MM ? 'low' : deviationMm > halfMm + ROUNDING_MM ? 'high' : null,
  };
}

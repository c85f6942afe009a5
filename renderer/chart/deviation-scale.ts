/** The magnified scale: deviation from the target about a common zero, clamped at its ends. */

import * as d3 from 'd3';
import { type LengthStyle, MM_PER_INCH } from '../../core/index.ts';

/** Half of the scale, in inches and in mm: steps a fabricator reads at a glance. The last keeps 1/16 in visible. */
const HALF_SPANS_IN = [1 / 4, 1 / 2, 1] as const;
const HALF_SPANS_MM = [5, 10, 25] as const;

export interface DeviationInput {
  /** Deviations in mm; nulls are primaries without a length yet. */
  readonly deviationsMm: readonly (number | null)[];
  /** Band below and above the target, both zero or more. */
  readonly band: { readonly minusMm: number; readonly plusMm: number };
  readonly style: LengthStyle;
}

/**
 * Half width of the scale in mm: the least step that shows every deviation and half as much again as the band.
 * A deviation past the largest step is clamped rather than let the small ones vanish; a band past it widens the scale.
 */
export function halfSpanMm({ deviationsMm, band, style }: DeviationInput): number {
  const steps = style.kind === 'mm' ? HALF_SPANS_MM : HALF_SPANS_IN.map((step) => step * MM_PER_INCH);
  const largest = steps[steps.length - 1] as number;
  const bandMm = Math.max(band.minusMm, band.plusMm) * 1.5;
  if (bandMm > largest) return bandMm;
  const shown = deviationsMm.filter((mm): mm is number => mm !== null && Math.abs(mm) <= largest);
  const wantedMm = Math.max(bandMm, ...shown.map((mm) => Math.abs(mm) * 1.05));
  return steps.find((step) => step >= wantedMm) ?? largest;
}

export type Clamp = 'low' | 'high' | null;

export interface DeviationScale {
  readonly halfMm: number;
  readonly widthPx: number;
  /** Pixels from the left edge for a deviation in mm; never outside the drawing. */
  readonly x: (deviationMm: number) => number;
  /** Which end the deviation lies past, if any. */
  readonly clampOf: (deviationMm: number) => Clamp;
}

/** Room at each end for the arrow of a clamped mark, in CSS pixels. */
const ARROW_ROOM_PX = 10;

export function deviationScale(halfMm: number, widthPx: number): DeviationScale {
  const roomPx = Math.min(ARROW_ROOM_PX, widthPx / 4);
  const x = d3
    .scaleLinear()
    .domain([-halfMm, halfMm])
    .range([roomPx, Math.max(roomPx, widthPx - roomPx)])
    .clamp(true);
  return {
    halfMm,
    widthPx,
    x: (deviationMm) => x(deviationMm),
    clampOf: (deviationMm) => (deviationMm < -halfMm ? 'low' : deviationMm > halfMm ? 'high' : null),
  };
}

/** Where every piece of a primary lies along its strip, and what a strip is drawn to. */

import * as d3 from 'd3';
import type { LengthStyle, MatchReport, Piece } from '../../../core/index.ts';
import { niceStepMm } from '../scale/length-ticks.ts';

/** Where the tube lies in its row, in percent of the row's height. */
export const TUBE_TOP = 22;
export const TUBE_HEIGHT = 56;
/** Room for a character of a label. */
export const CHARACTER_PX = 7.5;

export interface StripSegment {
  readonly piece: Piece;
  /** Place in the primary, counted from 0. */
  readonly index: number;
  readonly fromMm: number;
  readonly toMm: number;
}

/** Segments in order from the port, each starting where the one before it ends; lengths in mm as matched. */
export function stripSegments(pieces: readonly Piece[], pieceLengthsMm: readonly number[]): readonly StripSegment[] {
  const ends = d3.cumsum(pieceLengthsMm);
  return pieces.map((piece, index) => ({
    piece,
    index,
    fromMm: index === 0 ? 0 : (ends[index - 1] ?? 0),
    toMm: ends[index] ?? 0,
  }));
}

/** Least room right of the longest strip, as a share of it. */
const HEADROOM = 1.01;
const EMPTY_SCALE_MM = 100;

/**
 * Length in mm that the full scale reaches: past the longest primary, the target and the band's far edge, to the next
 * whole step of about a sixteenth, so that the strips do not stretch and shrink under every piece that is typed.
 */
export function fullSpanMm(report: MatchReport, style: LengthStyle): number {
  const wantedMm = Math.max(
    report.targetMm ?? 0,
    report.highMm ?? 0,
    ...report.primaries.map((primary) => primary.lengthMm),
  );
  if (!(wantedMm > 0)) return EMPTY_SCALE_MM;
  const stepMm = niceStepMm(wantedMm / 16, style);
  return Math.ceil((wantedMm * HEADROOM) / stepMm) * stepMm;
}

export interface FullScale {
  readonly spanMm: number;
  readonly widthPx: number;
  readonly x: (mm: number) => number;
}

/** From zero at the left edge, as a bar must. */
export function fullScale(spanMm: number, widthPx: number): FullScale {
  const x = d3.scaleLinear().domain([0, spanMm]).range([0, widthPx]);
  return { spanMm, widthPx, x: (mm) => x(mm) };
}

/** Whether a text of so many characters fits a box, at a character width in CSS pixels. */
export function fits(text: string, boxPx: number, characterPx: number): boolean {
  return text.length * characterPx + 6 <= boxPx;
}

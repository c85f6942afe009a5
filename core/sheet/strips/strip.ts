/** A strip of paper to wrap round a tube, in true size: lines to cut, saw and align by, and words. */

/** A point of a strip in mm: x to the right and y down the paper, from its top left corner. */
export interface StripPoint {
  readonly xMm: number;
  readonly yMm: number;
}

/**
 * What a line is for: `edge` is cut with scissors, `saw` is sawn or ground to, `mark` is lined up with or scribed, and `guide`
 * only helps to find one's way.
 */
export type StripLineUse = 'edge' | 'saw' | 'mark' | 'guide';

export interface StripLine {
  readonly use: StripLineUse;
  readonly points: readonly StripPoint[];
}

export interface StripLabel {
  /** Where the words begin, at the height of their feet. */
  readonly at: StripPoint;
  readonly text: string;
  /** Turned to read from top to bottom of the paper. */
  readonly isUpright: boolean;
}

export interface Strip {
  readonly name: string;
  /** What it is made for and how it is laid on, one sentence each. */
  readonly facts: readonly string[];
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lines: readonly StripLine[];
  readonly labels: readonly StripLabel[];
}

export function straightLine(use: StripLineUse, from: StripPoint, to: StripPoint): StripLine {
  return { use, points: [from, to] };
}

export function at(xMm: number, yMm: number): StripPoint {
  return { xMm, yMm };
}

/** The four edges of a rectangle from the top left corner on, as one closed run. */
export function rectangle(use: StripLineUse, widthMm: number, heightMm: number): StripLine {
  return { use, points: [at(0, 0), at(widthMm, 0), at(widthMm, heightMm), at(0, heightMm), at(0, 0)] };
}

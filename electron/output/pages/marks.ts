/** Lines and words of a page, with what most of them have in common filled in. */

import type { Ink, PageLine, PageText } from '../../bridge/page-messages.ts';
import { printedText } from './printed-text.ts';

export type Point = readonly [xMm: number, yMm: number];

/** Places are kept to a ten-thousandth of a millimetre: far finer than any printer, and free of the last digits of a sum. */
const STEPS = 1e4;

export function rounded(mm: number): number {
  return Math.round(mm * STEPS) / STEPS + 0;
}

const FINE_MM = 0.2;

export function line(points: readonly Point[], look: Partial<Omit<PageLine, 'kind' | 'points'>> = {}): PageLine {
  return {
    kind: 'line',
    points: points.map(([x, y]) => [rounded(x), rounded(y)] as const),
    isClosed: false,
    widthMm: FINE_MM,
    dashMm: 0,
    ink: 'black',
    fill: null,
    ...look,
  };
}

/** A filled rectangle without an edge. */
export function block([x, y]: Point, [widthMm, heightMm]: Point, fill: Ink): PageLine {
  const corners: Point[] = [
    [x, y],
    [x + widthMm, y],
    [x + widthMm, y + heightMm],
    [x, y + heightMm],
  ];
  return line(corners, { isClosed: true, widthMm: 0, fill });
}

export const TEXT_MM = 3.1;

export function words(
  text: string,
  [x, y]: Point,
  look: Partial<Omit<PageText, 'kind' | 'text' | 'at'>> = {},
): PageText {
  return {
    kind: 'text',
    text: printedText(text),
    at: [rounded(x), rounded(y)],
    align: 'start',
    sizeMm: TEXT_MM,
    isBold: false,
    isTurned: false,
    ink: 'black',
    ...look,
  };
}

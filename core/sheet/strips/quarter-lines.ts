/** Lines along a sleeve at the quarters and sixteenths of the tube's circumference, as layout practice has them. */

import { at, type StripLine, type StripPoint, straightLine } from './strip.ts';

/** Paper beyond the saw line that holds the sleeve on the tube, mm. */
export const SLEEVE_MM = 30;

const SIXTEENTHS = 16;
/** How far a sixteenth is drawn from the foot, mm. */
const TICK_MM = 5;
/** Words along the foot stand so high above it, clear of the sixteenths. */
export const LABEL_MM = 6.5;

/**
 * Quarters from the saw line to the foot, sixteenths as ticks at the foot.
 * @param saw the upper edge, from left to right
 */
export function quarterLines(roundMm: number, saw: readonly StripPoint[], heightMm: number): readonly StripLine[] {
  return Array.from({ length: SIXTEENTHS - 1 }, (_, index): StripLine => {
    const place = index + 1;
    const xMm = (roundMm * place) / SIXTEENTHS;
    if (place % 4 !== 0) return straightLine('guide', at(xMm, heightMm - TICK_MM), at(xMm, heightMm));
    return straightLine('mark', at(xMm, heightOfEdge(saw, xMm)), at(xMm, heightMm));
  });
}

/** Height of the edge at this place, by the nearest of its points. */
function heightOfEdge(saw: readonly StripPoint[], xMm: number): number {
  return saw.reduce((best, point) => (Math.abs(point.xMm - xMm) < Math.abs(best.xMm - xMm) ? point : best), at(0, 0))
    .yMm;
}

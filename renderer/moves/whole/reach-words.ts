/** Which lengths a primary can have, in words: the chart says the same. */

import { describeLengthRanges, formatLength, type LengthStyle, type ReachableLengths } from '../../../core/index.ts';

/** `35 1/4": with 2 bends or 3`. What was not looked at yet is left out. */
export function lengthWords(mm: number, { two, three }: ReachableLengths, style: LengthStyle): string {
  const isIn = (ranges: ReachableLengths['two']) =>
    ranges.some(({ lowMm, highMm }) => mm >= lowMm - SAME_MM && mm <= highMm + SAME_MM);
  const bends = [...(isIn(two) ? ['2'] : []), ...(three !== null && isIn(three) ? ['3'] : [])];
  const how =
    bends.length === 0 ? `not found with 2${three === null ? '' : ' or 3'} bends` : `with ${bends.join(' or ')} bends`;
  return `${formatLength(mm, style)}: ${how}`;
}

/** Edges of ranges are known to this. */
const SAME_MM = 0.05;

/** A sentence for two bends and one for three. */
export function reachSentences({ two, three }: ReachableLengths, style: LengthStyle): readonly string[] {
  const ofTwo = two.length === 0 ? 'With two bends: none.' : describeLengthRanges(two, style);
  if (three === null) return [ofTwo];
  return [ofTwo, three.length === 0 ? 'With three bends: none found.' : describeLengthRanges(three, style, 'three')];
}

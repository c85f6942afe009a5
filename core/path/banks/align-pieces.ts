/** Pairs the pieces of two primaries in order, so that an extra piece does not make all that follow it look different. */

import type { Piece } from '../../header/header.ts';
import { mmOf } from '../../units/length.ts';

/** Places in the two lists, from 0; null where one has no partner. */
export type PiecePairing = readonly [number | null, number | null];

/** Cost of a piece without partner, of a pair of unlike kinds, and most that measures can make of a pair of one kind. */
const WITHOUT_PARTNER = 1;
const UNLIKE = 1.9;
const MOST_FOR_MEASURES = 0.9;

/**
 * The pairing in order with the fewest pieces left over, and with the likest measures among those (edit distance by dynamic
 * programming, Wagner and Fischer 1974). Cost: product of the two counts.
 */
export function alignPieces(a: readonly Piece[], b: readonly Piece[]): readonly PiecePairing[] {
  const width = b.length + 1;
  const costs = new Float64Array((a.length + 1) * width);
  for (let i = 0; i <= a.length; i += 1) {
    for (let j = 0; j <= b.length; j += 1) costs[i * width + j] = cheapest(costs, { a, b, i, j });
  }
  const pairings: PiecePairing[] = [];
  let [i, j] = [a.length, b.length];
  while (i > 0 || j > 0) {
    const cost = costs[i * width + j] ?? 0;
    if (i > 0 && j > 0 && cost === (costs[(i - 1) * width + j - 1] ?? 0) + pairCost(a[i - 1], b[j - 1])) {
      i -= 1;
      j -= 1;
      pairings.push([i, j]);
    } else if (i > 0 && cost === (costs[(i - 1) * width + j] ?? 0) + WITHOUT_PARTNER) {
      i -= 1;
      pairings.push([i, null]);
    } else {
      j -= 1;
      pairings.push([null, j]);
    }
  }
  return pairings.reverse();
}

interface Cell {
  readonly a: readonly Piece[];
  readonly b: readonly Piece[];
  readonly i: number;
  readonly j: number;
}

function cheapest(costs: Float64Array, { a, b, i, j }: Cell): number {
  const width = b.length + 1;
  if (i === 0) return j * WITHOUT_PARTNER;
  if (j === 0) return i * WITHOUT_PARTNER;
  const paired = (costs[(i - 1) * width + j - 1] ?? 0) + pairCost(a[i - 1], b[j - 1]);
  const left = (costs[(i - 1) * width + j] ?? 0) + WITHOUT_PARTNER;
  const right = (costs[i * width + j - 1] ?? 0) + WITHOUT_PARTNER;
  return Math.min(paired, left, right);
}

/** Zero for pieces of the same measures; clockings play no part, since they are what is most often wrong. */
function pairCost(a: Piece | undefined, b: Piece | undefined): number {
  if (a === undefined || b === undefined || a.kind !== b.kind) return UNLIKE;
  if (a.kind === 'straight' || b.kind === 'straight') {
    if (a.kind !== 'straight' || b.kind !== 'straight') return UNLIKE;
    return MOST_FOR_MEASURES * unlikeness(mmOf(a.length), mmOf(b.length));
  }
  return (MOST_FOR_MEASURES / 2) * (unlikeness(a.angleDeg, b.angleDeg) + unlikeness(mmOf(a.clr), mmOf(b.clr)));
}

/** 0 for equal figures, nearing 1 as they part. */
function unlikeness(one: number, other: number): number {
  const larger = Math.max(Math.abs(one), Math.abs(other));
  return larger > 0 ? Math.abs(one - other) / larger : 0;
}

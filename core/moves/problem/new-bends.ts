/** Which bends a move may let in: their CLRs, and how far they go round. */

import { clrsOnShelf, largestAngleDeg } from '../../stock/shelf-match.ts';
import type { Length } from '../../units/length.ts';
import type { MoveProblem } from './move-problem.ts';

export interface NewBend {
  readonly clr: Length;
  readonly largestDeg: number;
}

/** Bends on the shelf for this tube, tightest first; without a shelf to look at, the header's CLR at any angle to 180. */
export function newBends({ header, stock, tube }: MoveProblem): readonly NewBend[] {
  if (stock === null) return [{ clr: header.settings.clr, largestDeg: 180 }];
  return clrsOnShelf(stock, tube).map((clr) => ({ clr, largestDeg: largestAngleDeg(stock, clr, tube) }));
}

/**
 * The clocking of the first bend from piece `from` on: it must be given another one for whatever bends come in before it, so that
 * it stays as it lies. That is a matter of what is written down, so it may be a welded bend. `null`: no bend follows. `false`: one
 * does, but it is locked.
 */
export function nextClocking(problem: MoveProblem, from: number): { readonly presentDeg: number } | null | false {
  for (let index = from; index < problem.pieces.length; index += 1) {
    const piece = problem.pieces[index];
    if (piece === undefined || piece.kind === 'straight') continue;
    return piece.locked ? false : { presentDeg: piece.clockingDeg ?? 0 };
  }
  return null;
}

/** Two banks, primary by primary. */

import type { Primary } from '../../header/header.ts';
import type { Result } from '../../result.ts';
import type { PathProblem } from '../path-problem.ts';
import { type Comparison, comparePrimaries, handMissDeg } from './compare-primaries.ts';

/** One place in the order of the two banks; a primary that has no partner stands alone. */
export interface BankPair {
  readonly referenceId: string | null;
  readonly otherId: string | null;
  /** Null for a primary without partner. */
  readonly comparison: Result<Comparison, PathProblem> | null;
}

/**
 * Compares banks in the order given: first with first, and so on. All of `other` is taken to be of one hand, the one that makes
 * the clockings of the whole bank differ less, so that one short primary cannot be taken for the wrong one.
 */
export function compareBanks(reference: readonly Primary[], other: readonly Primary[]): readonly BankPair[] {
  let missDeg = 0;
  for (const [index, primary] of reference.entries()) {
    const partner = other[index];
    if (partner !== undefined) missDeg += handMissDeg(primary, partner);
  }
  const isMirrored = missDeg < -1e-6;
  return Array.from({ length: Math.max(reference.length, other.length) }, (_, index): BankPair => {
    const [one, two] = [reference[index], other[index]];
    const comparison = one && two ? comparePrimaries(one, two, { isMirrored }) : null;
    return { referenceId: one?.id ?? null, otherId: two?.id ?? null, comparison };
  });
}

/** Which lengths a port and an inlet can have at all, so that a target is chosen with open eyes. */

import type { Header } from '../../header/header.ts';
import { distance } from '../../path/vector.ts';
import type { LengthRange, NoProposalReason } from '../outcome.ts';
import { readProposeProblem } from '../problem/propose-problem.ts';
import type { ProposeOptions } from '../question.ts';
import { leastWelded, rangesOfThree, rangesOfTwo } from './length-ranges.ts';

export interface ReachableLengths {
  /** The least with two bends, one or none; null where there is none. */
  readonly leastMm: number | null;
  /** Lengths were looked at from the straight way to here. */
  readonly toMm: number;
  readonly two: readonly LengthRange[];
  readonly three: readonly LengthRange[];
}

/**
 * Ranges of the lengths of a whole primary as welded that its port (or what is tacked) and its inlet allow with two bends and with three, from the CLRs at hand and
 * with the header's shortest straight; what else is in the bay is left out. Looked at up to `toMm`, by default twice the least.
 * Two bends are exact but for gaps narrower than a sixtieth of the range; of three a length may be left out that exists. Pauses (by yielding) every few milliseconds.
 */
export function* searchReach(
  header: Header,
  primaryId: string,
  options: ProposeOptions = {},
  toMm: number | null = null,
): Generator<void, ReachableLengths | NoProposalReason> {
  const read = readProposeProblem(header, primaryId, options);
  if (!read.ok) return read.reason;
  const { problem } = read;
  const { start, wanted } = problem.ends;
  const apartMm = problem.keptMm + distance(start.point, wanted.point);
  const leastMm = leastWelded(problem);
  const endMm = toMm ?? 2 * (leastMm ?? apartMm);
  yield;
  const two = leastMm === null ? [] : yield* rangesOfTwo(problem, leastMm, endMm);
  const three = yield* rangesOfThree(problem, apartMm, endMm);
  return { leastMm, toMm: endMm, two, three };
}

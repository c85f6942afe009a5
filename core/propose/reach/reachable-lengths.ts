/** Which lengths a port and an inlet can have at all, so that a target is chosen with open eyes. */

import type { Header } from '../../header/header.ts';
import { SearchInSlices } from '../../moves/search-in-slices.ts';
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
  /** Null: they have not been looked at yet. */
  readonly three: readonly LengthRange[] | null;
}

export type ReachOutcome =
  | { readonly kind: 'found'; readonly reach: ReachableLengths }
  | { readonly kind: 'none'; readonly reason: NoProposalReason };

/**
 * Ranges of the lengths of a whole primary as welded that its port (or what is tacked) and its inlet allow with two bends and with three, from the CLRs at hand and
 * with the header's shortest straight; what else is in the bay is left out. Looked at up to `toMm`, by default twice the least.
 * Two bends are exact but for gaps narrower than a sixtieth of the range; of three a length may be left out that exists. Those of two can be shown first.
 */
export class ReachSearch extends SearchInSlices<ReachOutcome> {
  readonly #shown: { reach: ReachableLengths | null };

  constructor(header: Header, primaryId: string, options: ProposeOptions = {}, toMm: number | null = null) {
    const shown: { reach: ReachableLengths | null } = { reach: null };
    super(searchReach({ header, primaryId, options, toMm }, shown));
    this.#shown = shown;
  }

  override get news(): number {
    return this.#shown.reach === null ? 0 : 1;
  }

  protected untilNow(): ReachOutcome {
    const { reach } = this.#shown;
    return reach === null ? { kind: 'none', reason: { kind: 'notThrough' } } : { kind: 'found', reach };
  }
}

interface Asked {
  readonly header: Header;
  readonly primaryId: string;
  readonly options: ProposeOptions;
  readonly toMm: number | null;
}

function* searchReach(asked: Asked, shown: { reach: ReachableLengths | null }): Generator<void, ReachOutcome> {
  const read = readProposeProblem(asked.header, asked.primaryId, asked.options);
  if (!read.ok) return { kind: 'none', reason: read.reason };
  const { problem } = read;
  const { start, wanted } = problem.ends;
  const apartMm = problem.keptMm + distance(start.point, wanted.point);
  const leastMm = yield* leastWelded(problem);
  const toMm = asked.toMm ?? 2 * (leastMm ?? apartMm);
  const two = leastMm === null ? [] : yield* rangesOfTwo(problem, leastMm, toMm);
  shown.reach = { leastMm, toMm, two, three: null };
  yield;
  const three = yield* rangesOfThree(problem, apartMm, toMm);
  return { kind: 'found', reach: { leastMm, toMm, two, three } };
}

/** What is asked and answered when all primaries of a header are proposed at once. */

import type { Edit } from '../../edits/edit.ts';
import type { NoProposalReason, ProposedPrimary } from '../outcome.ts';
import type { ProposeOptions } from '../question.ts';

export interface HeaderProposeOptions extends Omit<ProposeOptions, 'length' | 'most'> {
  /** One length for all, mm as welded; null: the header's target, or a little over the least of the farthest, whichever takes the fewest bends. */
  readonly lengthMm?: number | null;
  /** `best`: the header's target is left out of it, and becomes the length that takes the fewest bends. */
  readonly target?: 'own' | 'best';
  /** Which of the inlets in hand each primary ends in: any of its collector's, or the one that it has. */
  readonly inlets?: 'free' | 'asTheyAre';
}

export interface HeaderProposal {
  /** All of it as one undoable step. */
  readonly edit: Edit;
  /** In the order of the header. */
  readonly proposals: readonly ProposedPrimary[];
  /** By primary id. */
  readonly inletIds: ReadonlyMap<string, string>;
  /** The length that all were sought at. */
  readonly lengthMm: number;
  readonly bends: number;
  /** Longest less shortest after rounding, mm. */
  readonly spreadMm: number;
}

/** How far a search has come. */
export interface HeaderProgress {
  /** Tubes are gathered for each primary, sets of them put together, the sets proven. */
  readonly step: 'gathering' | 'fitting' | 'proving';
  /** All are sought at this one now, mm; null: no length is known yet. */
  readonly lengthMm: number | null;
  /** The place of that length among those that are tried, from 1. */
  readonly at: number;
  readonly lengths: number;
  /** Primaries that tubes have been gathered for, and all of them. */
  readonly gathered: number;
  readonly primaries: number;
}

export type HeaderProposalOutcome =
  | { readonly kind: 'found'; readonly proposal: HeaderProposal; readonly isExhausted: boolean }
  | {
      readonly kind: 'none';
      /**
       * `noneToDo`: all are whole, or none has both a port and an inlet. `onePrimary`: this one has no tube even by itself. `together`: each has, but no set of
       * them was found that keeps the gap.
       */
      readonly reason:
        | { readonly kind: 'headerFinished' | 'noneToDo' | 'together' | 'notThrough' }
        | { readonly kind: 'onePrimary'; readonly primaryId: string; readonly reason: NoProposalReason };
    };

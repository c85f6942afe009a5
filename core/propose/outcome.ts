/** What a search for proposals answers: whole primaries, or the reason why there is none and the nearest lengths that there are. */

import type { Edit } from '../edits/edit.ts';
import type { Piece } from '../header/header.ts';
import type { StockNeed } from '../moves/move.ts';
import type { Closure } from '../path/ends/closure.ts';
import type { PathProblem } from '../path/path-problem.ts';
import type { Vector } from '../path/vector.ts';

/** The nearest that a proposed primary comes to anything. */
export interface NearestThing {
  readonly kind: 'pair' | 'self' | 'obstacle';
  /** The other primary, or the obstacle; the primary itself where it comes back to itself. */
  readonly id: string;
  readonly gapMm: number;
  /** On the centreline of the proposed primary, mm in the header frame. */
  readonly at: Vector;
}

export interface ProposedPrimary {
  readonly primaryId: string;
  /** All of it as one undoable step. */
  readonly edit: Edit;
  /** What is put after the pieces that are kept, in order. */
  readonly pieces: readonly Piece[];
  /** Pieces from the port on that stay as they are. */
  readonly keptPieces: number;
  /** Of the whole primary as welded, saw rounding included. */
  readonly lengthMm: number;
  /** From the length wanted; null where the least was wanted. */
  readonly deviationMm: number | null;
  readonly closure: Closure;
  /** New bends, and of these the ones taken whole or at an angle that bends are bought in. */
  readonly bends: number;
  readonly readyBends: number;
  /** Joints to be made: between the new pieces, and at both ends of them. */
  readonly joints: number;
  /** Centreline of the new pieces, mm. */
  readonly tubeMm: number;
  /** One for each new piece but bends taken whole. */
  readonly cuts: number;
  /** Empty when no stock was given. */
  readonly stockNeeded: readonly StockNeed[];
  readonly stockLacking: number;
  /** Null when there is nothing to be near to. */
  readonly nearest: NearestThing | null;
}

/** Lengths of the whole primary as welded that were found to exist, mm. `highMm` infinite: no end was found as far as was looked. */
export interface LengthRange {
  readonly lowMm: number;
  readonly highMm: number;
}

export type NoProposalReason =
  | { readonly kind: 'noSuchPrimary' }
  | { readonly kind: 'headerFinished' }
  /** Where it starts or must end is not known. */
  | { readonly kind: 'endsUnknown'; readonly problem: PathProblem }
  /** The inlet lies in the port itself: nothing fits between. */
  | { readonly kind: 'samePlace' }
  /** What is tacked ends in its inlet already. */
  | { readonly kind: 'allThere' }
  /** The shelf has no bend of this tube. */
  | { readonly kind: 'noClr' }
  /** The length wanted is below the least with two bends of these CLRs, one or none, and nothing was found with more. */
  | { readonly kind: 'tooShort'; readonly wantedMm: number; readonly leastMm: number }
  /** No tube of so many bends was found to end there, at the length wanted if there is one. */
  | { readonly kind: 'outOfReach'; readonly mostBends: number; readonly isLengthWanted: boolean }
  /** There are some, but each comes nearer to something than is kept. */
  | { readonly kind: 'tooTight'; readonly bestMm: number; readonly keptMm: number }
  /** There are some on paper, but none in lengths and angles that can be sawn. */
  | { readonly kind: 'rounding' }
  /** The search was left before it was through. */
  | { readonly kind: 'notThrough' };

export type ProposalOutcome =
  | {
      readonly kind: 'found';
      /** Best first. */
      readonly proposals: readonly ProposedPrimary[];
      /** False: the search was left before it was through, and better ones may exist. */
      readonly isExhausted: boolean;
    }
  | {
      readonly kind: 'none';
      readonly reason: NoProposalReason;
      /** The nearest lengths that there are, with two bends; empty where none were found or none were sought. */
      readonly nearest: readonly LengthRange[];
    };

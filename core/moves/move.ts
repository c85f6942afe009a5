/** A move: what to change, what comes of it, and what it costs. */

import type { BatchEdit } from '../edits/edit.ts';
import type { Closure } from '../path/ends/closure.ts';
import type { ShelfMatch } from '../stock/shelf-match.ts';
import type { Length } from '../units/length.ts';
import type { MoveKind } from './question.ts';

/**
 * One thing to do. `pieceIndex` counts the pieces before the move, from 0; `joint` is the index of the piece that the joint
 * comes before: 0 is the port's flange, and the number of pieces is the collector inlet.
 */
export type MoveChange =
  | { readonly kind: 'length'; readonly pieceIndex: number; readonly from: Length; readonly to: Length }
  | { readonly kind: 'takeOut'; readonly pieceIndex: number; readonly from: Length }
  | { readonly kind: 'letIn'; readonly joint: number; readonly length: Length }
  | { readonly kind: 'clocking'; readonly pieceIndex: number; readonly fromDeg: number; readonly toDeg: number }
  | { readonly kind: 'angle'; readonly pieceIndex: number; readonly fromDeg: number; readonly toDeg: number }
  | {
      readonly kind: 'swap';
      readonly pieceIndex: number;
      readonly fromClr: Length;
      readonly toClr: Length;
      readonly fromDeg: number;
      readonly toDeg: number;
    }
  /** A pie-cut bend loses whole pies. */
  | {
      readonly kind: 'pies';
      readonly pieceIndex: number;
      readonly fromPies: number;
      readonly toPies: number;
      readonly fromDeg: number;
      readonly toDeg: number;
    }
  /** A bend taken out whole. `nextClockingDeg` is what the next bend's clocking then reads; null when there is no bend after. */
  | {
      readonly kind: 'bendOut';
      readonly pieceIndex: number;
      readonly angleDeg: number;
      readonly nextClockingDeg: number | null;
    }
  /** One bend let in; the next bend's clocking is part of it. */
  | {
      readonly kind: 'bendIn';
      readonly joint: number;
      readonly clr: Length;
      readonly angleDeg: number;
      readonly clockingDeg: number;
      readonly nextClockingDeg: number | null;
    }
  /** Two bends of one shape let in one after the other, the second clocked 180: the tube steps aside. */
  | {
      readonly kind: 'bendPair';
      readonly joint: number;
      readonly clr: Length;
      readonly angleDeg: number;
      /** Of the first bend, from the bend before it. */
      readonly clockingDeg: number;
      /** What the next bend's clocking must read so that it stays as it lies; null when there is no bend after. */
      readonly nextClockingDeg: number | null;
    }
  /** A straight goes out and back: a bend, one of twice its angle, and the first one's like. */
  | {
      readonly kind: 'kick';
      readonly pieceIndex: number;
      readonly from: Length;
      readonly before: Length;
      readonly after: Length;
      readonly clr: Length;
      readonly angleDeg: number;
      readonly clockingDeg: number;
      readonly nextClockingDeg: number | null;
    };

/** A piece that a move takes from the shelf. */
export type StockNeed =
  | { readonly kind: 'straight'; readonly lengthMm: number; readonly isOnShelf: boolean }
  | { readonly kind: 'bend'; readonly clr: Length; readonly angleDeg: number; readonly onShelf: ShelfMatch };

/** See `ranking/cost.ts` for what each figure counts. */
export interface MoveCost {
  readonly bendsAdded: number;
  /** Joints to be made: those opened and made again, and those of what is added. */
  readonly jointsMade: number;
  /** Tacked joints that come apart, each as the index of the piece after it. */
  readonly jointsBroken: readonly number[];
  readonly newCuts: number;
  readonly tubeAddedMm: number;
  /** Empty when no stock was given. */
  readonly stockNeeded: readonly StockNeed[];
  readonly stockLacking: number;
  /** In the shop's own unit; null where it gave no prices. */
  readonly price: number | null;
}

export interface Move {
  readonly kind: MoveKind;
  readonly primaryId: string;
  /** All of it as one undoable step. */
  readonly edit: BatchEdit;
  /** In order along the tube. */
  readonly changes: readonly MoveChange[];
  /** After the move, saw rounding included. */
  readonly lengthMm: number;
  readonly deviationMm: number;
  /** Null where the path is not known. */
  readonly closureBefore: Closure | null;
  readonly closureAfter: Closure | null;
  /** Least gap of this primary to other tubes, itself and obstacles; null when there is nothing to be near to. */
  readonly clearanceBeforeMm: number | null;
  readonly clearanceAfterMm: number | null;
  readonly cost: MoveCost;
  /** Only for moves on length alone: no point of the end shifts by more than this. */
  readonly endShiftAtMostMm: number | null;
}

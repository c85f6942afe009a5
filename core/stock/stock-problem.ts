/** Why a row of a stock list, or a step of the stock book, was refused, as data. */

import type { Length } from '../units/length.ts';

export type StockProblem =
  /** The first row does not name a column that every list needs. */
  | { readonly kind: 'stockColumnMissing'; readonly column: string }
  /** The first row names a column that a stock list does not have, or has it twice. */
  | { readonly kind: 'stockColumnUnknown'; readonly column: string }
  | { readonly kind: 'stockColumnTwice'; readonly column: string }
  | { readonly kind: 'stockListEmpty' }
  /** A row has more cells than the first row has columns. */
  | { readonly kind: 'stockRowTooLong'; readonly found: number; readonly columns: number }
  /** A cell that this kind of item needs is empty. */
  | { readonly kind: 'stockCellEmpty'; readonly column: string }
  /** A cell is filled that this kind of item does not have, such as the CLR of a straight. */
  | { readonly kind: 'stockCellNotWanted'; readonly column: string; readonly itemKind: 'bend' | 'straight' }
  /** A cell was read but does not hold what it may hold. */
  | {
      readonly kind: 'stockCellRefused';
      readonly column: string;
      /** What was in the cell, cut to 64 characters. */
      readonly found: string;
      readonly expected:
        | 'kind'
        | 'name'
        | 'note'
        | 'aboveZero'
        | 'lengthInRange'
        | 'angleInRange'
        | 'count'
        | 'gauge'
        | 'yesOrNo'
        | 'cost'
        /** A comma before three digits: of thousands or decimal, nobody can tell. */
        | 'costClear';
    }
  /** No bore would be left. */
  | { readonly kind: 'stockWallTooThick'; readonly wall: Length; readonly od: Length }
  /** The inside of the bend would pass through itself. */
  | { readonly kind: 'stockClrTooTight'; readonly clr: Length; readonly od: Length }
  /** More pieces are to go than there are; `item` in words. */
  | { readonly kind: 'stockNotEnough'; readonly item: string; readonly has: number; readonly wanted: number }
  | { readonly kind: 'stockTooMany'; readonly item: string; readonly wanted: number; readonly limit: number }
  /** Remnants have more degrees (of a bend) or millimetres (of a straight) than was cut. */
  | {
      readonly kind: 'remnantTooLarge';
      readonly item: string;
      readonly of: 'bend' | 'straight';
      readonly kept: number;
      readonly cut: number;
    }
  /** A step of the book cannot be taken back, for the row was changed or used since. */
  | { readonly kind: 'stockChangedSince'; readonly item: string }
  /** A cut plan cannot be taken back, for pieces of the header that it cut were changed since. */
  | { readonly kind: 'piecesChangedSince'; readonly header: string }
  /** Undoing or redoing a cut plan did not reach the disk, and made again by itself it would leave the stock where it is. */
  | { readonly kind: 'planTurnedAlone' };

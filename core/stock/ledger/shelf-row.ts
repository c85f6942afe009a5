/** A row of the stock book, and what a step of the book writes. */

import type { StockItem } from '../stock-item.ts';
import type { MovementReason } from './shelf-change.ts';

/** A row as it stands. */
export interface ShelfRow {
  /** With the count that its movements add up to. */
  readonly item: StockItem;
  /** Grows by one with each step that touches the row. */
  readonly revision: number;
  /** It is off the shelf; its count is 0. */
  readonly isRetired: boolean;
}

/** What becomes of a row in one step. */
export interface RowChange {
  /** Null: the step made the row. */
  readonly before: ShelfRow | null;
  readonly after: ShelfRow;
}

/** Pieces that come (above zero) or go (below zero). */
export interface Movement {
  readonly itemId: string;
  readonly pieces: number;
  readonly reason: MovementReason;
}

/** What one step writes: rows as they become, and the movements that make their counts so. */
export interface ShelfStep {
  readonly rows: readonly RowChange[];
  readonly movements: readonly Movement[];
}

/** Gives the row of an id; undefined: there has never been one. */
export type FindRow = (itemId: string) => ShelfRow | undefined;

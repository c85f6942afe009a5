/** Why a row of a stock list was refused, as data. */

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
      readonly expected: 'kind' | 'name' | 'note' | 'aboveZero' | 'lengthInRange' | 'angleInRange' | 'count';
    };

/** What the board is given. */

import type { Header, MatchReport } from '../../core/index.ts';
import type { BoardOrder } from './board-order.ts';
import type { RowActs } from './rows/row-acts.ts';

export interface BoardPreview {
  readonly after: Header;
  readonly report: MatchReport;
}

/** A header and its figures. */
export interface Figures {
  readonly header: Header;
  readonly report: MatchReport;
}

export interface BoardProps extends Figures {
  /**
   * The same as they were a frame ago: what the scale and the rows out of hand are drawn from. The row in hand comes first,
   * for it says what the key has done.
   */
  readonly before: Figures;
  /** The header as a move would leave it, outlined in the rows that it changes; null: none is looked at. */
  readonly preview: BoardPreview | null;
  readonly primaryId: string | null;
  readonly pieceId: string | null;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
  readonly order: BoardOrder;
  readonly onOrder: (order: BoardOrder) => void;
  /** What can be done with the primaries; null in a header that takes no steps. */
  readonly acts: RowActs | null;
}

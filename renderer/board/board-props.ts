/** What the board is given. */

import type { Header, MatchReport } from '../../core/index.ts';
import type { BoardOrder } from './board-order.ts';
import type { RowActs } from './rows/row-acts.ts';

export interface BoardPreview {
  readonly after: Header;
  readonly report: MatchReport;
}

export interface BoardProps {
  readonly header: Header;
  readonly report: MatchReport;
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

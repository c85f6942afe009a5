/** What the parts of the moves panel are given. */

import type { Header, MatchReport, Piece, Primary, SawSettings, StockItem } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import type { Proposal } from './proposals/proposal.ts';
import type { BenchMoves } from './use-bench-moves.ts';

export interface MovesPanelProps {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly report: MatchReport;
  readonly primary: Primary;
  /** Null: the shelf was not read. */
  readonly stock: readonly StockItem[] | null;
  /** What other runners' planned pieces are cut from is counted with it. */
  readonly saw: SawSettings;
  readonly bench: BenchMoves;
  /** The piece in hand in the grid; null: none. */
  readonly piece: Piece | null;
}

export interface MovesProps extends MovesPanelProps {
  readonly onApply: (proposal: Proposal) => void;
}

/** The board over the stage: the header's figures and the match board of all its primaries. */

import { useMemo } from 'react';
import { type Primary, renamePrimaryEdit } from '../../core/index.ts';
import type { BoardOrder } from '../board/board-order.ts';
import { FiguresTable } from '../board/figures-table.tsx';
import { MatchBoard } from '../board/match-board.tsx';
import type { RowActs } from '../board/rows/row-acts.ts';
import { MatchSummary } from './match-summary.tsx';
import type { BenchParts } from './use-bench.ts';
import { useStable } from './use-stable.ts';

export const BOARD_ID = 'bench-board';

interface Props {
  readonly bench: BenchParts;
  readonly primary: Primary;
  readonly order: BoardOrder;
  readonly onOrder: (order: BoardOrder) => void;
}

export function MatchArea({ bench, primary, order, onOrder }: Props) {
  const { header, report, view, moves, isFrozen } = bench;
  const acts = useRowActs(bench);
  return (
    <section className="bench-match" id={BOARD_ID} aria-label="All primaries">
      <MatchSummary header={header} report={report} />
      <MatchBoard
        header={header}
        report={report}
        preview={moves.preview}
        primaryId={primary.id}
        pieceId={view.piece?.id ?? null}
        onSelect={bench.selectOnBoard}
        order={order}
        onOrder={onOrder}
        acts={isFrozen ? null : acts}
      />
      {view.panel === 'tables' ? null : <FiguresTable header={header} report={report} isShown={false} />}
    </section>
  );
}

/** The same object from one drawing to the next, so that the board is not drawn again for it. */
function useRowActs({ acts, view }: BenchParts): RowActs {
  const rename = useStable((primaryId: string, name: string) => {
    acts.apply(renamePrimaryEdit(primaryId, name));
  });
  const move = useStable((primaryId: string, by: number) => {
    // Else whichever comes to stand first would be in hand, where none was chosen yet.
    view.selectPrimary(primaryId);
    acts.movePrimary(primaryId, by);
  });
  const duplicate = useStable(acts.duplicatePrimary);
  const remove = useStable((primaryId: string) => acts.removePrimary(primaryId));
  const add = useStable(acts.addPrimary);
  const mirror = useStable((primaryId: string) => {
    view.selectPrimary(primaryId);
    if (view.panel !== 'tables') view.togglePanel('tables');
  });
  return useMemo(
    () => ({ rename, move, duplicate, remove, add, mirror }),
    [rename, move, duplicate, remove, add, mirror],
  );
}

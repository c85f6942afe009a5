/** Everything that the parts of the bench share: the header, what is selected and open, what can be done, moves and stock. */

import { type RefObject, useCallback, useEffect, useMemo } from 'react';
import { shelfOffers, tubeOf } from '../../core/index.ts';
import { useCommands } from '../commands/command-registry.ts';
import { useBenchMoves } from '../moves/use-bench-moves.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { takesNoSteps } from '../session/session-state.ts';
import { useForeignChanges, useSession } from '../session/use-session.ts';
import { benchCommands } from './bench-commands.ts';
import { SIZE_COLUMN, useBenchView } from './bench-view.ts';
import { cellPrimaryOfDraft } from './grid/use-cell-edits.ts';
import type { KeptBench } from './layout/bench-sizes.ts';
import { primaryAtStart } from './primary-pane.tsx';
import { useFinish } from './to-go.tsx';
import { useBenchActs } from './use-bench-acts.ts';
import { useStock } from './use-stock.ts';

export type BenchParts = ReturnType<typeof useBench>;

export function useBench(
  session: HeaderSession,
  entryRef: RefObject<HTMLInputElement | null>,
  { movePrices, keepMovePrices, saw }: Pick<KeptBench, 'movePrices' | 'keepMovePrices' | 'saw'>,
) {
  // Each on its own: the save mark changes twice an edit and must not draw the bench again.
  const header = useSession(session, (state) => state.header);
  const report = useSession(session, (state) => state.report);
  const isFrozen = useSession(session, takesNoSteps);
  const focusEntry = useCallback(() => {
    // At once, so that what is typed right after the key lands in the line; unless that has to be drawn first.
    if (entryRef.current === null) requestAnimationFrame(() => entryRef.current?.focus());
    else entryRef.current.focus();
  }, [entryRef]);
  const view = useBenchView(session, header, primaryAtStart(session));
  const acts = useBenchActs(session, view, focusEntry);
  const stock = useStock(session);
  const onFinish = useFinish({ session, view, acts, stock });
  const moves = useBenchMoves(
    { header, primaryId: view.primaryId, isOpen: view.panel === 'moves' },
    { kept: movePrices, keep: keepMovePrices },
  );
  const { primary, selectPrimary, change } = view;
  const tube = primary === null ? header.settings.tube : tubeOf(header, primary);
  const offers = useMemo(() => shelfOffers(stock ?? [], tube), [stock, tube]);
  useForeignChanges(session);
  useCommands(benchCommands({ header, view, acts, isFrozen, focusEntry, onFinish }));
  useEffect(() => {
    // A cell that was being typed into has taken the focus already.
    if (cellPrimaryOfDraft(session) === null) entryRef.current?.focus();
    session.takeDraft();
  }, [session, entryRef]);
  const selectOnBoard = useCallback(
    (primaryId: string, pieceId: string | null) => {
      selectPrimary(primaryId);
      const pieces = session.getState().header.primaries.find((candidate) => candidate.id === primaryId)?.pieces ?? [];
      const row = pieces.findIndex((piece) => piece.id === pieceId);
      if (row !== -1) change({ cell: { row, column: SIZE_COLUMN }, anchorRow: null });
    },
    [session, selectPrimary, change],
  );
  return {
    header,
    report,
    view,
    acts,
    moves,
    primary,
    stock,
    saw,
    offers,
    isFrozen,
    focusEntry,
    onFinish,
    selectOnBoard,
  };
}

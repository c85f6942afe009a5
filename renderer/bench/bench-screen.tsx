/** The bench: one header, all its primaries in a chart, and the pieces of the one in hand. */

import { memo, type RefObject, useCallback, useEffect, useMemo, useRef } from 'react';
import { clrsOnShelf, tubeOf } from '../../core/index.ts';
import { useCommands } from '../commands/command-registry.ts';
import type { HeaderSession } from '../session/header-session.ts';
import type { OpenedHeader } from '../session/session-state.ts';
import { useForeignChanges, useSession } from '../session/use-session.ts';
import './bench.css';
import './grid/piece-grid.css';
import './entry/entry.css';
import './drawers/panels.css';
import { useBenchMoves } from '../moves/use-bench-moves.ts';
import { benchCommands } from './bench-commands.ts';
import { useBenchView } from './bench-view.ts';
import { Conflicts } from './conflict-dialog.tsx';
import { DamageNote } from './damage-note.tsx';
import { Drawers } from './drawers/drawers.tsx';
import { EmptyBench } from './empty-bench.tsx';
import { cellPrimaryOfDraft } from './grid/use-cell-edits.ts';
import { MatchArea } from './match-area.tsx';
import { PrimaryPane, primaryAtStart } from './primary-pane.tsx';
import { PrintSheet } from './print/print-sheet.tsx';
import { useBenchActs } from './use-bench-acts.ts';
import { useStable } from './use-stable.ts';
import { useStock } from './use-stock.ts';

interface Props {
  readonly session: HeaderSession;
  /** Told when a conflict was settled by keeping this window's version as a header of its own. */
  readonly onCopied?: (opened: OpenedHeader) => void;
  /** Begins to finish the header: freezes it and puts it into the archive. */
  readonly onFinish?: () => void;
}

/** Drawn again for its own reasons only, whatever the frame around it does. */
export function BenchScreen({ session, onCopied, onFinish }: Props) {
  const copied = useStable((opened: OpenedHeader) => onCopied?.(opened));
  const finish = useStable(() => onFinish?.());
  return <Bench session={session} onCopied={copied} onFinish={finish} />;
}

const Bench = memo(function Bench({ session, onCopied, onFinish }: Required<Props>) {
  const entryRef = useRef<HTMLInputElement>(null);
  const bench = useBench(session, entryRef);
  const { header, report, view, acts, primary } = bench;
  const match = report.primaries.find((candidate) => candidate.primaryId === primary?.id);
  return (
    <main className="bench" id="screen" data-header={header.id}>
      {header.state === 'finished' ? (
        <p className="frozen">This header is finished and frozen. Duplicate it to go on from here.</p>
      ) : null}
      <DamageNote session={session} onCopied={onCopied} />
      {primary === null || match === undefined ? (
        <EmptyBench acts={acts} />
      ) : (
        <>
          <MatchArea
            session={session}
            header={header}
            report={report}
            primary={primary}
            view={view}
            moves={bench.moves}
            stock={bench.stock}
            onSelect={bench.selectInChart}
          />
          <PrimaryPane
            {...bench}
            marks={bench.moves.marks}
            session={session}
            primary={primary}
            match={match}
            entryRef={entryRef}
          />
        </>
      )}
      <Drawers session={session} view={view} acts={acts} onFinish={onFinish} />
      <Conflicts session={session} onCopied={onCopied} />
      <PrintSheet header={header} report={report} />
    </main>
  );
});

/** Everything that the parts of the bench share. */
function useBench(session: HeaderSession, entryRef: RefObject<HTMLInputElement | null>) {
  // Each on its own: the save mark changes twice an edit and must not draw the bench again.
  const header = useSession(session, (state) => state.header);
  const report = useSession(session, (state) => state.report);
  const focusEntry = useCallback(() => {
    // At once where it stands, so that what is typed next goes into it; a line that is not drawn yet is waited for.
    if (entryRef.current === null) requestAnimationFrame(() => entryRef.current?.focus());
    else entryRef.current.focus();
  }, [entryRef]);
  const view = useBenchView(session, header, primaryAtStart(session));
  const acts = useBenchActs(session, view, focusEntry);
  const stock = useStock(session.bridge);
  const moves = useBenchMoves(header, view.primaryId, view.drawer);
  const { primary, selectPrimary, change } = view;
  const tube = primary === null ? header.settings.tube : tubeOf(header, primary);
  const clrs = useMemo(() => clrsOnShelf(stock ?? [], tube), [stock, tube]);
  useForeignChanges(session);
  useCommands(benchCommands({ header, view, acts, focusEntry }));
  useEffect(() => {
    // A cell that was being typed into has taken the focus already.
    if (cellPrimaryOfDraft(session) === null) entryRef.current?.focus();
    session.takeDraft();
  }, [session, entryRef]);
  const selectInChart = useCallback(
    (primaryId: string, pieceId: string | null) => {
      selectPrimary(primaryId);
      const pieces = session.getState().header.primaries.find((candidate) => candidate.id === primaryId)?.pieces ?? [];
      const row = pieces.findIndex((piece) => piece.id === pieceId);
      if (row !== -1) change({ cell: { row, column: 2 }, anchorRow: null });
    },
    [session, selectPrimary, change],
  );
  return { header, report, view, acts, moves, primary, stock, clrs, focusEntry, selectInChart };
}

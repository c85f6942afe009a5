/** The bench: one header, with the board of its primaries, the stage, one panel, and the pieces of the primary in hand. */

import { type CSSProperties, memo, type RefObject, useCallback, useEffect, useMemo, useRef } from 'react';
import { clrsOnShelf, type Primary, tubeOf } from '../../core/index.ts';
import { useCommands } from '../commands/command-registry.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { type OpenedHeader, takesNoSteps } from '../session/session-state.ts';
import { useForeignChanges, useSession } from '../session/use-session.ts';
import { useMedia } from '../ui/use-media.ts';
import './bench.css';
import './grid/piece-grid.css';
import './entry/entry.css';
import './panels/panels.css';
import './layout/layout.css';
import { useBenchMoves } from '../moves/use-bench-moves.ts';
import { benchCommands } from './bench-commands.ts';
import { useBenchView } from './bench-view.ts';
import { Conflicts } from './conflict-dialog.tsx';
import { DamageNote } from './damage-note.tsx';
import { EmptyBench } from './empty-bench.tsx';
import { FinishedNote } from './finished-note.tsx';
import { cellPrimaryOfDraft } from './grid/use-cell-edits.ts';
import { type KeptSizes, useBenchSizes } from './layout/bench-sizes.ts';
import { FrontTabs } from './layout/front-tabs.tsx';
import { Splitter } from './layout/splitter.tsx';
import { BOARD_ID, MatchArea } from './match-area.tsx';
import { BenchPanel } from './panels/bench-panel.tsx';
import { PANEL_FRAME_ID, panelsFor } from './panels/panel-list.ts';
import { Rail } from './panels/rail.tsx';
import { PIECES_ID, PrimaryPane, primaryAtStart } from './primary-pane.tsx';
import { Stage } from './stage.tsx';
import { useBenchActs } from './use-bench-acts.ts';
import { useStable } from './use-stable.ts';
import { useStock } from './use-stock.ts';

interface Props {
  readonly session: HeaderSession;
  readonly kept: KeptSizes;
  /** Told when a conflict was settled by keeping this window's version as a header of its own. */
  readonly onCopied?: (opened: OpenedHeader) => void;
}

/** Drawn again for its own reasons only, whatever the frame around it does. */
export function BenchScreen({ session, kept, onCopied }: Props) {
  const copied = useStable((opened: OpenedHeader) => onCopied?.(opened));
  return <Bench session={session} kept={kept} onCopied={copied} />;
}

const Bench = memo(function Bench({ session, kept, onCopied }: Required<Props>) {
  const entryRef = useRef<HTMLInputElement>(null);
  const bench = useBench(session, entryRef);
  const { header, acts, primary } = bench;
  return (
    <main
      className="bench"
      id="screen"
      data-header={header.id}
      style={{ '--primaries': header.primaries.length } as CSSProperties}
    >
      <div className="bench-notes">
        {header.state === 'finished' ? <FinishedNote /> : null}
        <DamageNote session={session} onCopied={onCopied} />
      </div>
      {primary === null ? (
        <EmptyBench acts={acts} />
      ) : (
        <Places bench={bench} session={session} primary={primary} kept={kept} entryRef={entryRef} />
      )}
      <Conflicts session={session} onCopied={onCopied} />
    </main>
  );
});

interface PlacesProps {
  readonly bench: ReturnType<typeof useBench>;
  readonly session: HeaderSession;
  readonly primary: Primary;
  readonly kept: KeptSizes;
  readonly entryRef: RefObject<HTMLInputElement | null>;
}

/** Under this width stage and panel have one place between them; layout.css says the same. */
const SHARED_PLACE = '(max-width: 68.75rem)';

/** Board, stage, panel and pieces, each in its place, in the order in which the focus goes through them. */
function Places({ bench, session, primary, kept, entryRef }: PlacesProps) {
  const { header, report, view, moves, isFrozen } = bench;
  const sizing = useBenchSizes(kept);
  const isShared = useMedia(SHARED_PLACE);
  const panel = panelsFor(isFrozen).find(({ id }) => id === view.panel) ?? null;
  const onToggle = useStable(view.togglePanel);
  const match = report.primaries.find((candidate) => candidate.primaryId === primary.id);
  return (
    <>
      <Rail open={panel?.id ?? null} isFrozen={isFrozen} onToggle={onToggle} />
      <MatchArea
        header={header}
        report={report}
        primary={primary}
        view={view}
        moves={moves}
        onSelect={bench.selectInChart}
      />
      <Splitter part="board" label="Height of the board" grows="down" controls={BOARD_ID} sizing={sizing} />
      {panel === null ? null : (
        <>
          {isShared ? (
            <FrontTabs front={view.front} panelTitle={panel.title} onFront={(front) => view.change({ front })} />
          ) : null}
          <BenchPanel
            panel={panel.id}
            isHidden={isShared && view.front === 'stage'}
            session={session}
            header={header}
            report={report}
            primary={primary}
            isFrozen={isFrozen}
            view={view}
            acts={bench.acts}
            moves={moves}
            stock={bench.stock}
          />
          <Splitter part="panel" label="Width of the panel" grows="right" controls={PANEL_FRAME_ID} sizing={sizing} />
        </>
      )}
      <Stage
        header={header}
        preview={moves.preview?.after ?? null}
        primary={primary}
        piece={view.piece}
        isHidden={isShared && panel !== null && view.front === 'panel'}
        onPick={bench.selectInChart}
      />
      <Splitter part="pieces" label="Width of the pieces" grows="left" controls={PIECES_ID} sizing={sizing} />
      {match === undefined ? null : (
        <PrimaryPane
          {...bench}
          marks={moves.marks}
          session={session}
          primary={primary}
          match={match}
          entryRef={entryRef}
        />
      )}
    </>
  );
}

/** Everything that the parts of the bench share. */
function useBench(session: HeaderSession, entryRef: RefObject<HTMLInputElement | null>) {
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
  const stock = useStock(session.bridge);
  const moves = useBenchMoves(header, view.primaryId, view.panel === 'moves');
  const { primary, selectPrimary, change } = view;
  const tube = primary === null ? header.settings.tube : tubeOf(header, primary);
  const clrs = useMemo(() => clrsOnShelf(stock ?? [], tube), [stock, tube]);
  useForeignChanges(session);
  useCommands(benchCommands({ header, view, acts, isFrozen, focusEntry }));
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
  return { header, report, view, acts, moves, primary, stock, clrs, isFrozen, focusEntry, selectInChart };
}

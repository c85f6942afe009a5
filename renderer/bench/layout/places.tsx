/** Board, stage, panel and pieces, each in its place, in the order in which the focus goes through them. */

import type { RefObject } from 'react';
import type { Primary } from '../../../core/index.ts';
import { proposedPieces } from '../../moves/proposals/moves-preview.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { useMedia } from '../../ui/hooks/use-media.ts';
import { BOARD_ID, MatchArea } from '../match-area.tsx';
import { BenchPanel } from '../panels/bench-panel.tsx';
import { PANEL_FRAME_ID, type PanelEntry, panelsFor } from '../panels/panel-list.ts';
import { Rail } from '../panels/rail.tsx';
import { PIECES_ID, PrimaryPane } from '../primary-pane.tsx';
import type { BenchParts } from '../use-bench.ts';
import { useStable } from '../use-stable.ts';
import { type BenchSizing, type KeptBench, useBenchSizes } from './bench-sizes.ts';
import { FrontTabs } from './front-tabs.tsx';
import { Splitter } from './splitter.tsx';
import { Stage } from './stage.tsx';

interface Props {
  readonly bench: BenchParts;
  readonly session: HeaderSession;
  /** The one in hand. */
  readonly primary: Primary;
  readonly kept: KeptBench;
  readonly entryRef: RefObject<HTMLInputElement | null>;
}

/** Under this width stage and panel have one place between them; layout.css says the same. */
const SHARED_PLACE = '(max-width: 68.75rem)';

export function Places({ bench, session, primary, kept, entryRef }: Props) {
  const { header, report, view, moves, isFrozen } = bench;
  const sizing = useBenchSizes(kept);
  const isShared = useMedia(SHARED_PLACE);
  const panel = panelsFor(isFrozen).find(({ id }) => id === view.panel) ?? null;
  const onToggle = useStable(view.togglePanel);
  const match = report.primaries.find((candidate) => candidate.primaryId === primary.id);
  const given = { bench, session, primary };
  return (
    <>
      <Rail open={panel?.id ?? null} isFrozen={isFrozen} onToggle={onToggle} />
      <MatchArea bench={bench} primary={primary} order={kept.boardOrder} onOrder={kept.keepOrder} />
      <Splitter part="board" label="Height of the board" grows="down" controls={BOARD_ID} sizing={sizing} />
      {panel === null ? null : <PanelPlace {...given} panel={panel} isShared={isShared} sizing={sizing} />}
      <Stage
        header={header}
        preview={moves.preview?.after ?? null}
        primary={primary}
        piece={view.piece}
        isHidden={isShared && panel !== null && view.front === 'panel'}
        standpoints={kept.standpoints}
        onPick={bench.selectOnBoard}
      />
      <Splitter part="pieces" label="Width of the pieces" grows="left" controls={PIECES_ID} sizing={sizing} />
      {match === undefined ? null : (
        <PrimaryPane
          {...bench}
          marks={moves.marks}
          changed={moves.changed}
          proposed={proposedPieces(moves.preview, primary)}
          session={session}
          primary={primary}
          match={match}
          entryRef={entryRef}
        />
      )}
    </>
  );
}

interface PanelPlaceProps extends Pick<Props, 'bench' | 'session' | 'primary'> {
  readonly panel: PanelEntry;
  readonly isShared: boolean;
  readonly sizing: BenchSizing;
}

function PanelPlace({ bench, session, primary, panel, isShared, sizing }: PanelPlaceProps) {
  const { view } = bench;
  return (
    <>
      {isShared ? (
        <FrontTabs front={view.front} panelTitle={panel.title} onFront={(front) => view.change({ front })} />
      ) : null}
      <BenchPanel
        panel={panel.id}
        isHidden={isShared && view.front === 'stage'}
        bench={bench}
        session={session}
        primary={primary}
      />
      <Splitter part="panel" label="Width of the panel" grows="right" controls={PANEL_FRAME_ID} sizing={sizing} />
    </>
  );
}

/** The left side of the bench: the chart of all primaries, or the header in space in its place. */

import { lazy, Suspense } from 'react';
import type { Header, MatchReport, Primary, StockItem } from '../../core/index.ts';
import { FiguresTable } from '../chart/figures-table.tsx';
import { MatchChart } from '../chart/match-chart.tsx';
import { MovesPanel } from '../moves/moves-panel.tsx';
import type { BenchMoves } from '../moves/use-bench-moves.ts';
import type { HeaderSession } from '../session/header-session.ts';
import type { BenchView } from './bench-view.ts';
import { MatchSummary } from './match-summary.tsx';

/** Three.js comes with it, so it is fetched when it is first asked for. */
const SpaceArea = lazy(async () => ({ default: (await import('../shape/space-area.tsx')).SpaceArea }));

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  readonly report: MatchReport;
  readonly primary: Primary;
  readonly view: BenchView;
  readonly moves: BenchMoves;
  readonly stock: readonly StockItem[] | null;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

export function MatchArea(props: Props) {
  const { session, header, report, primary, view, moves, stock } = props;
  const { drawer } = view;
  const hasMoves = drawer === 'moves' && header.state === 'open';
  const isInSpace = drawer === 'view' || drawer === 'shape' || (hasMoves && moves.isInSpace);
  return (
    <section className="bench-match" aria-label="All primaries" data-moves={hasMoves || undefined}>
      <MatchSummary header={header} report={report} />
      {isInSpace ? <InSpace {...props} /> : <InChart {...props} />}
      {hasMoves ? (
        <MovesPanel
          session={session}
          header={header}
          report={report}
          primary={primary}
          stock={stock}
          bench={moves}
          piece={view.piece}
        />
      ) : null}
    </section>
  );
}

function InSpace({ session, header, primary, view: { drawer, piece }, moves, onSelect }: Props) {
  return (
    <Suspense fallback={<p aria-busy="true">Fetching the picture …</p>}>
      <SpaceArea
        session={session}
        header={header}
        preview={moves.preview?.after ?? null}
        primary={primary}
        piece={piece}
        hasPanels={drawer === 'shape' && header.state === 'open'}
        onPick={onSelect}
      />
    </Suspense>
  );
}

function InChart({ header, report, primary, view: { drawer, piece }, moves, onSelect }: Props) {
  return (
    <>
      <MatchChart
        header={header}
        report={report}
        preview={moves.preview}
        primaryId={primary.id}
        pieceId={piece?.id ?? null}
        onSelect={onSelect}
      />
      <FiguresTable header={header} report={report} isShown={drawer === 'figures'} />
    </>
  );
}

/** The board over the stage: the header's figures and the chart of all its primaries. */

import type { Header, MatchReport, Primary } from '../../core/index.ts';
import { FiguresTable } from '../chart/figures-table.tsx';
import { MatchChart } from '../chart/match-chart.tsx';
import type { BenchMoves } from '../moves/use-bench-moves.ts';
import type { BenchView } from './bench-view.ts';
import { MatchSummary } from './match-summary.tsx';

export const BOARD_ID = 'bench-board';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
  readonly primary: Primary;
  readonly view: BenchView;
  readonly moves: BenchMoves;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

export function MatchArea({ header, report, primary, view: { panel, piece }, moves, onSelect }: Props) {
  return (
    <section className="bench-match" id={BOARD_ID} aria-label="All primaries">
      <MatchSummary header={header} report={report} />
      <MatchChart
        header={header}
        report={report}
        preview={moves.preview}
        primaryId={primary.id}
        pieceId={piece?.id ?? null}
        onSelect={onSelect}
      />
      {panel === 'tables' ? null : <FiguresTable header={header} report={report} isShown={false} />}
    </section>
  );
}

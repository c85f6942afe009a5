/** The left side of the bench: the chart of all primaries, or the header in space in its place. */

import { lazy, Suspense } from 'react';
import type { Header, Primary } from '../../core/header/header.ts';
import type { MatchReport } from '../../core/index.ts';
import { FiguresTable } from '../chart/figures-table.tsx';
import { MatchChart } from '../chart/match-chart.tsx';
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
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

export function MatchArea({ session, header, report, primary, view, onSelect }: Props) {
  const { drawer, piece } = view;
  return (
    <section className="bench-match" aria-label="All primaries">
      <MatchSummary header={header} report={report} />
      {drawer === 'view' || drawer === 'shape' ? (
        <Suspense fallback={<p aria-busy="true">Fetching the picture …</p>}>
          <SpaceArea
            session={session}
            header={header}
            primary={primary}
            piece={piece}
            hasPanels={drawer === 'shape' && header.state === 'open'}
            onPick={onSelect}
          />
        </Suspense>
      ) : (
        <>
          <MatchChart
            header={header}
            report={report}
            primaryId={primary.id}
            pieceId={piece?.id ?? null}
            onSelect={onSelect}
          />
          <FiguresTable header={header} report={report} isShown={drawer === 'figures'} />
        </>
      )}
    </section>
  );
}

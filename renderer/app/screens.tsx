/** The one screen that is shown, and what stands in its place should it fail. */

import type { ReactNode } from 'react';
import { ArchiveScreen } from '../archive/archive-screen.tsx';
import { CompareScreen } from '../archive/compare/compare-screen.tsx';
import { ShopFiguresScreen } from '../archive/figures/shop-figures-screen.tsx';
import { BenchScreen } from '../bench/bench-screen.tsx';
import { CutPlanScreen } from '../cutplan/cut-plan-screen.tsx';
import { HeaderList } from '../headers/header-list.tsx';
import { HelpScreen } from '../help/help-screen.tsx';
import type { HeaderSession } from '../session/header-session.ts';
import { SheetScreen } from '../sheet/sheet-screen.tsx';
import { ShelfScreen } from '../shelf/shelf-screen.tsx';
import { ErrorBoundary } from '../ui/error-boundary.tsx';
import { writeScreen } from '../ui/screen.ts';
import { HeaderPlace } from './header-place.tsx';
import type { ReadyStart, Workshop } from './use-workshop.ts';

interface Props {
  readonly workshop: Workshop;
  readonly start: ReadyStart;
}

export function Screens(props: Props) {
  const { screen, imports, goTo } = props.workshop;
  return (
    <div className="screen">
      <ErrorBoundary
        resetKey={`${writeScreen(screen)} ${imports.count}`}
        onLeave={screen.kind === 'headers' ? null : () => goTo({ kind: 'headers' })}
      >
        <ScreenInHand {...props} />
      </ErrorBoundary>
    </div>
  );
}

function headerPlace({ open, goTo }: Workshop, headerId: string, show: (session: HeaderSession) => ReactNode) {
  return (
    <HeaderPlace
      open={open.state}
      headerId={headerId}
      onList={() => goTo({ kind: 'headers' })}
      onRetry={() => void open.open(headerId)}
      show={show}
    />
  );
}

function ScreenInHand({ workshop, start }: Props) {
  const { screen, open, session, going, imports } = workshop;
  switch (screen.kind) {
    case 'headers':
      return (
        <HeaderList
          key={imports.count}
          session={session}
          onOpen={going.openById}
          onOpened={going.openGiven}
          onGone={open.drop}
          onImport={() => imports.ask('header')}
        />
      );
    case 'bench':
      return headerPlace(workshop, screen.headerId, (session) => (
        <BenchScreen key={screen.headerId} session={session} kept={workshop.keptBench} onCopied={going.show} />
      ));
    case 'cutplan':
      return headerPlace(workshop, screen.headerId, (session) => (
        <CutPlanScreen
          key={screen.headerId}
          session={session}
          saw={workshop.preferences.saw ?? null}
          onSaw={(saw) => workshop.changePreferences({ saw })}
        />
      ));
    case 'sheet':
      return headerPlace(workshop, screen.headerId, (session) => (
        <SheetScreen key={screen.headerId} session={session} />
      ));
    case 'shelf':
      return (
        <ShelfScreen
          key={imports.count}
          unit={imports.unit}
          inHand={session?.getState().header.settings ?? null}
          onImport={() => imports.ask('stock')}
        />
      );
    case 'archive':
      return (
        <ArchiveScreen
          key={imports.count}
          unit={imports.unit}
          likeId={screen.likeId ?? null}
          goTo={workshop.goTo}
          onOpen={going.openById}
          onOpened={going.openGiven}
        />
      );
    case 'compare':
      return <CompareScreen oneId={screen.oneId} otherId={screen.otherId} />;
    case 'shopFigures':
      return <ShopFiguresScreen unit={imports.unit} />;
    case 'help':
      return <HelpScreen page={screen.page} version={start.version} dataFolder={start.dataFolder} />;
  }
}

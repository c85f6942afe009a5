/** The one screen that is shown, and what stands in its place should it fail. */

import { ArchiveScreen } from '../archive/archive-screen.tsx';
import { HeaderList } from '../headers/header-list.tsx';
import { HelpScreen } from '../help/help-screen.tsx';
import { ShelfScreen } from '../shelf/shelf-screen.tsx';
import { ErrorBoundary } from '../ui/error-boundary.tsx';
import { writeScreen } from '../ui/screen.ts';
import { BenchPlace } from './bench-place.tsx';
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

function ScreenInHand({ workshop, start }: Props) {
  const { screen, open, session, going, imports, goTo } = workshop;
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
      return (
        <BenchPlace
          open={open.state}
          headerId={screen.headerId}
          onOpened={going.show}
          onList={() => goTo({ kind: 'headers' })}
          onRetry={() => void open.open(screen.headerId)}
          kept={workshop.keptBench}
        />
      );
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
      return <ArchiveScreen unit={imports.unit} onOpen={going.openById} onOpened={going.openGiven} />;
    case 'help':
      return <HelpScreen page={screen.page} version={start.version} dataFolder={start.dataFolder} />;
  }
}

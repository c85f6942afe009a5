/** The one panel that is open: beside the stage, and never over the board, the pieces or the entry line. */

import { X } from 'lucide-react';
import { type KeyboardEvent, lazy, type ReactNode, Suspense, useEffect, useRef } from 'react';
import type { Primary } from '../../../core/index.ts';
import { MovesPanel } from '../../moves/moves-panel.tsx';
import type { HeaderSession } from '../../session/header-session.ts';
import type { ShapePanelId } from '../../shape/shape-props.ts';
import { IconButton } from '../../ui/icon-button.tsx';
import type { BenchParts } from '../use-bench.ts';
import { PANEL_FRAME_ID, PANELS, type PanelId, railButtonId } from './panel-list.ts';
import { SettingsPanel } from './settings-panel.tsx';
import { TablesTabs } from './tables-tabs.tsx';

const AsBuiltPanel = lazy(async () => ({ default: (await import('../../asbuilt/as-built-panel.tsx')).AsBuiltPanel }));
const PulsesPanel = lazy(async () => ({ default: (await import('../../gas/pulses-panel.tsx')).PulsesPanel }));
const PicturesPanel = lazy(async () => ({
  default: (await import('../../pictures/pictures-panel.tsx')).PicturesPanel,
}));
const ShapePanel = lazy(async () => ({ default: (await import('../../shape/shape-panels.tsx')).ShapePanel }));

interface PanelProps {
  readonly bench: BenchParts;
  readonly session: HeaderSession;
  /** The one in hand. */
  readonly primary: Primary;
}

interface Props extends PanelProps {
  readonly panel: PanelId;
  /** Another tab is in front: the panel stays as it is, out of sight. */
  readonly isHidden: boolean;
}

/** A toolbar gives the focus to the button that had it last; asked again from within, it lets it go to this one. */
function focusRail(panel: PanelId): void {
  const button = document.getElementById(railButtonId(panel));
  button?.focus();
  button?.focus();
}

export function BenchPanel({ panel, isHidden, ...props }: Props) {
  const frame = useRef<HTMLElement>(null);
  const title = PANELS.find(({ id }) => id === panel)?.title ?? '';
  // Whoever opens a panel is taken into it. With the bench itself, which comes later, the entry line has the focus.
  useEffect(() => {
    frame.current?.focus();
    return () => {
      // Closed from within by a key or a command: the focus goes back to where the panel was opened.
      if (document.activeElement === document.body) focusRail(panel);
    };
  }, [panel]);
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Escape' || event.defaultPrevented) return;
    event.preventDefault();
    focusRail(panel);
  };
  return (
    <section
      ref={frame}
      id={PANEL_FRAME_ID}
      className="bench-panel screen-only"
      aria-label={title}
      tabIndex={-1}
      hidden={isHidden}
      onKeyDown={onKeyDown}
    >
      <div className="panel-head">
        <h2>{title}</h2>
        <IconButton
          Icon={X}
          name={`Close ${title}`}
          onPress={() => {
            focusRail(panel);
            props.bench.view.change({ panel: null, front: 'stage' });
          }}
        />
      </div>
      <div className="panel-body">
        <Suspense fallback={<p aria-busy="true">Opening …</p>}>{contentOf(panel, props)}</Suspense>
      </div>
    </section>
  );
}

function contentOf(panel: PanelId, { bench, session, primary }: PanelProps): ReactNode {
  const { header, report, view, isFrozen, moves, stock, saw } = bench;
  const { piece } = view;
  const shape = (id: ShapePanelId) => (
    <ShapePanel id={id} session={session} header={header} primary={primary} piece={piece} />
  );
  switch (panel) {
    case 'moves':
      return (
        <MovesPanel
          session={session}
          header={header}
          report={report}
          primary={primary}
          stock={stock}
          saw={saw}
          bench={moves}
          piece={piece}
        />
      );
    case 'ports':
      return shape('ends');
    case 'fit':
      return (
        <>
          <section className="panel-part" aria-label="Clearance">
            {shape('clearance')}
          </section>
          <section className="panel-part" aria-label="Closure">
            {shape('closure')}
          </section>
        </>
      );
    case 'asBuilt':
      return <AsBuiltPanel session={session} header={header} primary={primary} offers={bench.offers} />;
    case 'pulses':
      return <PulsesPanel session={session} header={header} />;
    case 'pictures':
      return <PicturesPanel session={session} />;
    case 'tables':
      return (
        <TablesTabs
          header={header}
          report={report}
          stock={stock}
          bend={shape('tables')}
          bank={isFrozen ? null : shape('bank')}
        />
      );
    case 'settings':
      return <SettingsPanel session={session} header={header} report={report} stock={stock} />;
    default:
      return shape(panel);
  }
}

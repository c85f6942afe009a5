/** What stands in the chart's place while shape is worked on: the picture in space, and below it the panels if asked for. */

import type { Header, Piece, Primary } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { ViewPanel } from '../view/view-panel.tsx';
import { ShapePanel } from './shape-panel.tsx';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  /** The header as a move would leave it; null: none is looked at. */
  readonly preview: Header | null;
  readonly primary: Primary;
  readonly piece: Piece | null;
  readonly hasPanels: boolean;
  readonly onPick: (primaryId: string, pieceId: string | null) => void;
}

export function SpaceArea({ session, header, preview, primary, piece, hasPanels, onPick }: Props) {
  return (
    <div className="space-area" data-panels={hasPanels || undefined}>
      <ViewPanel
        header={header}
        preview={preview}
        primaryId={primary.id}
        pieceId={piece?.id ?? null}
        onPick={(picked) => onPick(picked.primaryId, picked.pieceId)}
      />
      {hasPanels ? <ShapePanel session={session} header={header} primary={primary} piece={piece} /> : null}
    </div>
  );
}

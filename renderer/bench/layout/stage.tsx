/** The stage: the header in space, always in sight beside the open panel. */

import { lazy, memo, Suspense } from 'react';
import type { Header, Piece, Primary } from '../../../core/index.ts';

/** Three.js comes with it, and typing must not wait for that. */
const ViewPanel = lazy(async () => ({ default: (await import('../../view/view-panel.tsx')).ViewPanel }));

interface Props {
  readonly header: Header;
  /** The header as a move would leave it; null: none is looked at. */
  readonly preview: Header | null;
  readonly primary: Primary;
  readonly piece: Piece | null;
  /** Another tab is in front. */
  readonly isHidden: boolean;
  readonly onPick: (primaryId: string, pieceId: string | null) => void;
}

export const STAGE_ID = 'bench-stage';

export const Stage = memo(function Stage({ header, preview, primary, piece, isHidden, onPick }: Props) {
  return (
    <div className="bench-stage" id={STAGE_ID} hidden={isHidden}>
      <Suspense fallback={<p aria-busy="true">Fetching the picture …</p>}>
        <ViewPanel
          header={header}
          preview={preview}
          primaryId={primary.id}
          pieceId={piece?.id ?? null}
          onPick={(picked) => onPick(picked.primaryId, picked.pieceId)}
        />
      </Suspense>
    </div>
  );
});

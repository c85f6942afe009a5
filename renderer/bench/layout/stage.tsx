/** The stage: the header in space, always in sight beside the open panel. */

import { lazy, memo, Suspense, useMemo } from 'react';
import type { Header, Piece, Primary } from '../../../core/index.ts';
import { afterPaint } from '../../ui/after-paint.ts';
import type { KeptStandpoints } from '../../view/camera/kept-standpoints.ts';
import { useAfterPaint } from '../../view/use-after-paint.ts';
import { restMs, type Shown } from './stage-rest.ts';

/** Three.js comes with it, and neither typing nor the first sight of the figures must wait for that. */
async function viewPanel() {
  const painted = new Promise<void>((resolve) => afterPaint(resolve));
  const [{ ViewPanel: panel }] = await Promise.all([import('../../view/view-panel.tsx'), painted]);
  return { default: panel };
}

const ViewPanel = memo(lazy(viewPanel));

interface Props {
  readonly header: Header;
  /** The header as a move would leave it; null: none is looked at. */
  readonly preview: Header | null;
  readonly primary: Primary;
  readonly piece: Piece | null;
  /** Another tab is in front. */
  readonly isHidden: boolean;
  readonly standpoints: KeptStandpoints;
  readonly onPick: (primaryId: string, pieceId: string | null) => void;
}

/** Follows the bench once that is painted: nothing of the stage is drawn in the frame that shows an edit. */
export const Stage = memo(function Stage(props: Props) {
  const { header, preview, primary, piece, isHidden, standpoints, onPick } = props;
  const [primaryId, pieceId] = [primary.id, piece?.id ?? null];
  // Together, so that an edit that also moves the selection is one picture and not two.
  const wanted = useMemo((): Shown => ({ header, preview, primaryId, pieceId }), [header, preview, primaryId, pieceId]);
  const shown = useAfterPaint(wanted, restMs);
  const pick = useMemo(
    () => (picked: { readonly primaryId: string; readonly pieceId: string | null }) =>
      onPick(picked.primaryId, picked.pieceId),
    [onPick],
  );
  return (
    <div className="bench-stage" hidden={isHidden}>
      <Suspense fallback={<p aria-busy="true">Loading the picture …</p>}>
        <ViewPanel {...shown} standpoints={standpoints} onPick={pick} />
      </Suspense>
    </div>
  );
});

/** The header from the front, from the side and from above: what prints, and what stands in where there is no WebGL. */

import { useMemo } from 'react';
import { useWidth } from '../../ui/hooks/use-width.ts';
import { AnnotationMarks } from '../annotations/annotation-layer.tsx';
import { annotate } from '../annotations/annotations.ts';
import { FLAT_VIEWS, fitCamera, type NamedView, type PictureSize } from '../camera/view-camera.ts';
import type { Scene } from '../scene/scene.ts';
import { type FlatPiece, flatPicture } from './flat-outlines.ts';
import '../view.css';

interface Props {
  readonly scene: Scene;
  readonly heightPx: number;
  readonly textPx: number;
  readonly onPick: (primaryId: string, pieceId: string) => void;
}

export function FlatViews(props: Props) {
  return (
    <div className="flat-views">
      {FLAT_VIEWS.map((view) => (
        <FlatView key={view.id} view={view} {...props} />
      ))}
    </div>
  );
}

const CAPTION_LINES = 3.2;

const WAYS: Readonly<Record<NamedView['id'], string>> = {
  threeQuarter: '',
  front: 'outboard to the right',
  side: 'forward to the left',
  top: 'forward up, outboard to the left',
};

/** All three are drawn to one scale, as on a drawing. */
function commonHeightMm(scene: Scene, size: PictureSize): number {
  return Math.max(...FLAT_VIEWS.map((view) => fitCamera(view, scene.reaches, size).heightMm));
}

function FlatView({ view, scene, heightPx, textPx, onPick }: Props & { readonly view: NamedView }) {
  const [ref, widthPx] = useWidth();
  const drawn = useMemo(() => {
    const size = { widthPx, heightPx: Math.max(40, heightPx - CAPTION_LINES * textPx) };
    const camera = { ...fitCamera(view, scene.reaches, size), heightMm: commonHeightMm(scene, size) };
    const annotations = annotate(scene, { camera, size, textPx, section: null, labelled: 'all' });
    return { size, ...flatPicture(scene, camera, size), annotations };
  }, [view, scene, widthPx, heightPx, textPx]);
  return (
    <figure className="flat-view" ref={ref} data-pieces={drawn.pieces.length} data-view={view.id}>
      <svg
        role="img"
        aria-label={`${view.name} view of the header`}
        width={drawn.size.widthPx}
        height={drawn.size.heightPx}
        viewBox={`0 0 ${drawn.size.widthPx} ${drawn.size.heightPx}`}
      >
        {drawn.outlines.map(({ key, kind, path }) => (
          <path key={key} d={path} className="flat-outline" data-kind={kind} />
        ))}
        {drawn.pieces.map((piece) => (
          <FlatTube key={piece.key} piece={piece} onPick={onPick} />
        ))}
        <AnnotationMarks annotations={drawn.annotations} textPx={textPx} />
      </svg>
      <figcaption>
        {view.name}: {WAYS[view.id]}
      </figcaption>
    </figure>
  );
}

interface TubeProps {
  readonly piece: FlatPiece;
  readonly onPick: Props['onPick'];
}

const EDGE_PX = 1.25;

function FlatTube({ piece, onPick }: TubeProps) {
  const [start, end] = piece.ends;
  return (
    // Choosing by the pointer is a short cut: pieces are chosen by key in the grid beside.
    <g
      className="flat-tube"
      data-selected={piece.isSelected || undefined}
      data-in-hand={piece.isInHand || undefined}
      onPointerUp={() => onPick(piece.primaryId, piece.pieceId)}
    >
      <path d={piece.centreline} className="flat-edge" strokeWidth={piece.widthPx + EDGE_PX} />
      <path d={start} className="flat-end" />
      <path d={end} className="flat-end" />
      <path d={piece.centreline} className="flat-fill" strokeWidth={Math.max(1, piece.widthPx - EDGE_PX)} />
    </g>
  );
}

/** A primary's pieces in small: bends hatched, straights plain, all thumbnails to one scale. */

import { memo } from 'react';
import type { Primary } from '../../../core/index.ts';
import { stripSegments } from './strip-layout.ts';

interface Props {
  readonly primary: Primary;
  readonly pieceLengthsMm: readonly number[];
  readonly spanMm: number;
  readonly hatchId: string;
}

const WIDTH_PX = 72;
const HEIGHT_PX = 10;

function ThumbnailView({ primary, pieceLengthsMm, spanMm, hatchId }: Props) {
  const px = (mm: number) => 0.5 + (mm / spanMm) * (WIDTH_PX - 1);
  const boxes = stripSegments(primary.pieces, pieceLengthsMm).map(({ piece, fromMm, toMm }) => ({
    kind: piece.kind,
    isPlanned: piece.state === 'planned',
    path: `M${px(fromMm).toFixed(1)},0.5H${px(toMm).toFixed(1)}V${HEIGHT_PX - 0.5}H${px(fromMm).toFixed(1)}Z`,
  }));
  const pathOf = (list: typeof boxes) => list.map(({ path }) => path).join('');
  return (
    <svg className="thumbnail" width={WIDTH_PX} height={HEIGHT_PX} aria-hidden="true" focusable="false">
      <path d={pathOf(boxes.filter(({ kind }) => kind !== 'straight'))} fill={`url(#${hatchId})`} />
      <path className="segment-tube" d={pathOf(boxes.filter(({ isPlanned }) => !isPlanned))} />
      <path className="segment-tube" data-state="planned" d={pathOf(boxes.filter(({ isPlanned }) => isPlanned))} />
    </svg>
  );
}

// Piece lengths follow from the primary.
export const Thumbnail = memo(
  ThumbnailView,
  (before, after) =>
    before.primary === after.primary && before.spanMm === after.spanMm && before.hatchId === after.hatchId,
);

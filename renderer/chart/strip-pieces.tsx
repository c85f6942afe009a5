/** The pieces of one primary along its strip: few elements for many pieces, because a new scale moves all of them. */

import { type MouseEvent, memo } from 'react';
import type { LengthStyle, Primary, PrimaryMatch } from '../../core/index.ts';
import { SvgFigureText } from '../ui/figure-text.tsx';
import { segmentLabel } from '../ui/words/piece-words.ts';
import type { ReadPiece } from './chart-keys.ts';
import {
  CHARACTER_PX,
  type FullScale,
  fits,
  type StripSegment,
  stripSegments,
  TUBE_HEIGHT,
  TUBE_TOP,
} from './strip-layout.ts';

interface Props {
  readonly primary: Primary;
  readonly match: PrimaryMatch;
  readonly full: FullScale;
  readonly style: LengthStyle;
  readonly hatchId: string;
  readonly pieceId: string | null;
  readonly readIndex: number | null;
  readonly onRead: (read: ReadPiece | null) => void;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

interface Box extends StripSegment {
  readonly xPx: number;
  readonly widthPx: number;
}

function StripPiecesView(props: Props) {
  const { primary, match, full, style, hatchId, pieceId, readIndex } = props;
  const boxes = stripSegments(primary.pieces, match.pieceLengthsMm).map((segment): Box => {
    const xPx = full.x(segment.fromMm);
    return { ...segment, xPx, widthPx: Math.max(1, full.x(segment.toMm) - xPx) };
  });
  const last = boxes.at(-1);
  if (last === undefined) return null;
  const run = { x: 0, width: last.xPx + last.widthPx, y: `${TUBE_TOP}%`, height: `${TUBE_HEIGHT}%` };
  const isMarked = (box: Box) => box.piece.id === pieceId || box.index === readIndex;
  return (
    <>
      <rect {...run} className="segment-run" {...pointing(props, boxes)} />
      <rect {...run} className="segment-hatch" fill={`url(#${hatchId})`} />
      <svg viewBox={`0 0 ${full.widthPx} 100`} preserveAspectRatio="none" aria-hidden="true" focusable="false">
        <path className="segment-plain" d={outlines(boxes.filter(({ piece }) => piece.kind === 'straight'))} />
        <path className="segment-tube" d={outlines(boxes.filter(({ piece }) => piece.state !== 'planned'))} />
        <path
          className="segment-tube"
          data-state="planned"
          d={outlines(boxes.filter(({ piece }) => piece.state === 'planned'))}
        />
        <path className="segment-tube" data-marked d={outlines(boxes.filter(isMarked))} />
      </svg>
      {boxes.map((box) => (
        <Label key={box.piece.id} box={box} text={segmentLabel(box.piece, style)} />
      ))}
    </>
  );
}

/** One path around each of the boxes; heights in percent of the row. */
function outlines(boxes: readonly Box[]): string {
  return boxes
    .map(({ xPx, widthPx }) => {
      const [from, to] = [xPx.toFixed(2), (xPx + widthPx).toFixed(2)];
      return `M${from},${TUBE_TOP}H${to}V${TUBE_TOP + TUBE_HEIGHT}H${from}Z`;
    })
    .join('');
}

/** The row offers the same by the arrow keys and Enter. */
function pointing({ primary, readIndex, onRead, onSelect }: Props, boxes: readonly Box[]) {
  const pointedAt = (event: MouseEvent<SVGElement>) => {
    const xPx = event.clientX - (event.currentTarget.ownerSVGElement?.getBoundingClientRect().left ?? 0);
    return boxes.findLast((box) => xPx >= box.xPx) ?? boxes[0];
  };
  return {
    onPointerMove: (event: MouseEvent<SVGElement>) => {
      const index = pointedAt(event)?.index ?? null;
      if (index !== null && index !== readIndex) onRead({ primaryId: primary.id, index });
    },
    onClick: (event: MouseEvent<SVGElement>) => {
      event.stopPropagation();
      onSelect(primary.id, pointedAt(event)?.piece.id ?? null);
    },
  };
}

function Label({ box, text }: { readonly box: Box; readonly text: string }) {
  const { xPx, widthPx } = box;
  if (!fits(text, widthPx, CHARACTER_PX)) return null;
  // Moved by its transform, for another x would have the text laid out again.
  const place = `translate(${xPx + widthPx / 2} 0)`;
  return (
    <text className="segment-label" transform={place} y="50%" textAnchor="middle" dominantBaseline="central">
      <SvgFigureText text={text} />
    </text>
  );
}

/** Drawn again only when its own pieces, the scale or the marks change: the target moves far more often. */
export const StripPieces = memo(
  StripPiecesView,
  // Piece lengths follow from the primary.
  (before, after) =>
    (['primary', 'full', 'style', 'hatchId', 'pieceId', 'readIndex', 'onRead', 'onSelect'] as const).every(
      (name) => before[name] === after[name],
    ),
);

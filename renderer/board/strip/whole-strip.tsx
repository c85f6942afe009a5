/** The pieces of the primary in hand at full width: few elements for many pieces, because a new scale moves all of them. */

import * as d3 from 'd3';
import { type MouseEvent, memo, useMemo } from 'react';
import { formatLength, type LengthStyle, type Primary, type PrimaryMatch } from '../../../core/index.ts';
import { SvgFigureText } from '../../ui/figure-text.tsx';
import { segmentLabel } from '../../ui/words/piece-words.ts';
import type { ReadPiece } from '../rows/board-keys.ts';
import {
  CHARACTER_PX,
  type FullScale,
  fits,
  fullScale,
  type StripSegment,
  stripSegments,
  TUBE_HEIGHT,
  TUBE_TOP,
} from './strip-layout.ts';

/** What the strip is drawn to. */
export interface WholeScale {
  readonly widthPx: number;
  readonly targetMm: number | null;
  readonly lowMm: number | null;
  readonly highMm: number | null;
}

interface StripProps {
  readonly primary: Primary;
  readonly match: PrimaryMatch;
  readonly preview: PrimaryMatch | null;
  readonly whole: WholeScale;
  readonly spanMm: number;
  readonly style: LengthStyle;
  readonly hatchId: string;
  readonly pieceId: string | null;
  readonly readIndex: number | null;
  readonly onRead: (read: ReadPiece | null) => void;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

/**
 * Three drawings over one another, so that those of the target and the band can move without the many pieces between
 * them being laid out and painted again. Heights are in percent of the strip, so that one drawing serves all sizes.
 */
export function WholeStrip(props: StripProps) {
  const { spanMm, whole } = props;
  const { widthPx, lowMm, highMm } = whole;
  const full = useMemo(() => fullScale(spanMm, widthPx), [spanMm, widthPx]);
  const size = { width: widthPx, height: '100%', focusable: false };
  return (
    <div className="strip">
      <svg {...size} aria-hidden="true" className="strip-under">
        {lowMm !== null && highMm !== null ? (
          <rect className="band" x={full.x(lowMm)} width={full.x(highMm) - full.x(lowMm)} height="100%" />
        ) : null}
      </svg>
      <svg {...size} aria-hidden="true" className="strip-pieces">
        <StripPieces {...props} full={full} />
      </svg>
      <svg {...size} aria-hidden="true" className="strip-over">
        <Over {...props} full={full} />
      </svg>
    </div>
  );
}

function Over({ match, preview, whole: { targetMm }, style, full }: StripProps & { readonly full: FullScale }) {
  const { deviationMm, standing } = match;
  const gapMm = standing === 'building' && deviationMm !== null && deviationMm < 0 ? -deviationMm : null;
  return (
    <>
      {preview === null ? null : <StripAfter match={preview} full={full} />}
      {gapMm !== null && targetMm !== null ? (
        <Gap fromPx={full.x(match.lengthMm)} toPx={full.x(targetMm)} words={`to go ${formatLength(gapMm, style)}`} />
      ) : null}
      {targetMm === null ? null : (
        <line className="target-line" x1={full.x(targetMm)} x2={full.x(targetMm)} y1="0" y2="100%" />
      )}
    </>
  );
}

const AFTER_TOP = 84;
const AFTER_HEIGHT = 14;

/** Below the strip, in outline: the pieces as a move would leave them. */
function StripAfter({ match, full }: { readonly match: PrimaryMatch; readonly full: FullScale }) {
  const ends = d3.cumsum(match.pieceLengthsMm);
  return (
    <g className="strip-after">
      {match.pieceLengthsMm.map((lengthMm, index) => {
        const toMm = ends[index] ?? 0;
        const xPx = full.x(toMm - lengthMm);
        return (
          <rect
            // biome-ignore lint/suspicious/noArrayIndexKey: lengths in order are all that there is
            key={index}
            x={xPx}
            width={Math.max(1, full.x(toMm) - xPx)}
            y={`${AFTER_TOP}%`}
            height={`${AFTER_HEIGHT}%`}
          />
        );
      })}
    </g>
  );
}

/** What is missing to the target, drawn as an outline, with its figure inside where there is room. */
function Gap({ fromPx, toPx, words }: { readonly fromPx: number; readonly toPx: number; readonly words: string }) {
  const widthPx = Math.max(0, toPx - fromPx);
  if (widthPx < 1) return null;
  return (
    <g className="gap">
      <rect className="gap-box" x={fromPx} width={widthPx} y={`${TUBE_TOP}%`} height={`${TUBE_HEIGHT}%`} />
      {fits(words, widthPx, CHARACTER_PX) ? (
        <text className="segment-label" x={fromPx + widthPx / 2} y="50%" textAnchor="middle" dominantBaseline="central">
          <SvgFigureText text={words} />
        </text>
      ) : null}
    </g>
  );
}

interface Props extends Omit<StripProps, 'preview' | 'whole' | 'spanMm'> {
  readonly full: FullScale;
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
      // The second click of two is for the row: the first may have brought the strip under the pointer.
      if (event.detail < 2) onSelect(primary.id, pointedAt(event)?.piece.id ?? null);
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
const StripPieces = memo(
  StripPiecesView,
  // Piece lengths follow from the primary.
  (before, after) =>
    (['primary', 'full', 'style', 'hatchId', 'pieceId', 'readIndex', 'onRead', 'onSelect'] as const).every(
      (name) => before[name] === after[name],
    ),
);

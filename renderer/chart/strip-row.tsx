/** One primary in the chart: its strip of pieces, its deviation, and its verdict in words. */

import * as d3 from 'd3';
import { memo } from 'react';
import { formatLength, formatLengthBare, type LengthStyle, type Primary, type PrimaryMatch } from '../../core/index.ts';
import { FigureText, SvgFigureText } from '../ui/figure-text.tsx';
import { rowWords, verdictMark } from '../ui/words/verdict-words.ts';
import type { ReadPiece } from './chart-keys.ts';
import type { DeviationScale } from './deviation-scale.ts';
import { CHARACTER_PX, type FullScale, fits, TUBE_HEIGHT, TUBE_TOP } from './strip-layout.ts';
import { StripPieces } from './strip-pieces.tsx';

interface Props {
  readonly primary: Primary;
  readonly match: PrimaryMatch;
  /** As a move would leave it; null: no move is looked at that changes it. */
  readonly preview: PrimaryMatch | null;
  readonly targetMm: number | null;
  readonly lowMm: number | null;
  readonly highMm: number | null;
  readonly band: { readonly minusMm: number; readonly plusMm: number };
  readonly full: FullScale;
  readonly deviation: DeviationScale;
  readonly style: LengthStyle;
  readonly hatchId: string;
  readonly isSelected: boolean;
  readonly isTabStop: boolean;
  readonly pieceId: string | null;
  readonly readIndex: number | null;
  readonly onRead: (read: ReadPiece | null) => void;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

function StripRowView(props: Props) {
  const { primary, match, style, isSelected } = props;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list around it handles the keys of all rows
    <div
      className="strip-row"
      role="option"
      aria-selected={isSelected}
      tabIndex={props.isTabStop ? 0 : -1}
      data-primary={primary.id}
      onClick={() => props.onSelect(primary.id, null)}
    >
      <span className="strip-name">
        {/^\d+$/.test(primary.name) ? <span className="visually-hidden">Primary </span> : null}
        {primary.name}
        <span className="visually-hidden">: {formatLength(match.lengthMm, style)},</span>
      </span>
      <Strip {...props} />
      <Deviation {...props} />
      <RowVerdict match={match} preview={props.preview} style={style} />
    </div>
  );
}

function RowVerdict({ match, preview, style }: Pick<Props, 'match' | 'preview' | 'style'>) {
  return (
    <span className="strip-verdict" data-verdict={match.verdict ?? 'none'}>
      {match.verdict === null ? null : (
        <>
          <span className="verdict-mark" aria-hidden="true">
            {verdictMark(match.verdict).mark}
          </span>{' '}
        </>
      )}
      <FigureText text={rowWords(match, style)} />
      {preview === null ? null : (
        <span className="verdict-after">
          then <FigureText text={rowWords(preview, style)} />
        </span>
      )}
    </span>
  );
}

const STRIP_HEIGHT = 100;

/**
 * Three drawings over one another, so that those of the target and the band can move without the many pieces between
 * them being laid out and painted again. Heights are in percent of the row, so that one drawing serves both densities.
 */
function Strip(props: Props) {
  const { full, lowMm, highMm } = props;
  const size = { width: full.widthPx, height: '100%', focusable: false };
  return (
    <div className="strip">
      <svg {...size} aria-hidden="true" className="strip-under">
        {lowMm !== null && highMm !== null ? (
          <rect className="band" x={full.x(lowMm)} width={full.x(highMm) - full.x(lowMm)} height={`${STRIP_HEIGHT}%`} />
        ) : null}
      </svg>
      <svg {...size} aria-hidden="true" className="strip-pieces">
        <StripPieces {...props} />
      </svg>
      <svg {...size} aria-hidden="true" className="strip-over">
        <Over {...props} />
      </svg>
    </div>
  );
}

function Over({ match, preview, full, style, targetMm }: Props) {
  const gapMm = match.standing === 'building' && (match.deviationMm ?? 0) < 0 ? -(match.deviationMm ?? 0) : null;
  return (
    <>
      {preview === null ? null : <StripAfter match={preview} full={full} />}
      {gapMm !== null && targetMm !== null ? (
        <Gap
          fromPx={full.x(match.lengthMm)}
          toPx={full.x(targetMm)}
          words={`${formatLengthBare(gapMm, style)} to go`}
        />
      ) : null}
      {targetMm === null ? null : (
        <line className="target-line" x1={full.x(targetMm)} x2={full.x(targetMm)} y1="0" y2={`${STRIP_HEIGHT}%`} />
      )}
    </>
  );
}

const AFTER_TOP = 84;
const AFTER_HEIGHT = 12;

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

/** What is missing to the target, drawn as an outline; the words stand inside it, or left of it when it is narrow. */
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

/** Distance from the common zero: a thin line to a diamond whose middle is the value; an arrow when it lies past the end. */
function Deviation({ match, preview, band, deviation }: Props) {
  const lowPx = deviation.x(-band.minusMm);
  const highPx = deviation.x(band.plusMm);
  const zeroPx = deviation.x(0);
  return (
    <svg className="deviation" width={deviation.widthPx} height="100%" aria-hidden="true" focusable="false">
      <rect className="band" x={lowPx} width={Math.max(0, highPx - lowPx)} height="100%" />
      <line className="band-edge" x1={lowPx} x2={lowPx} y1="0" y2="100%" />
      <line className="band-edge" x1={highPx} x2={highPx} y1="0" y2="100%" />
      <line className="zero-line" x1={zeroPx} x2={zeroPx} y1="0" y2="100%" />
      {match.deviationMm === null || match.verdict === null ? null : (
        <g data-verdict={match.verdict}>
          <line className="stem" x1={zeroPx} x2={deviation.x(match.deviationMm)} y1="50%" y2="50%" />
          <Mark xPx={deviation.x(match.deviationMm)} clamp={deviation.clampOf(match.deviationMm)} />
        </g>
      )}
      {preview === null || preview.deviationMm === null ? null : (
        <g className="mark-after">
          <Mark xPx={deviation.x(preview.deviationMm)} clamp={deviation.clampOf(preview.deviationMm)} />
        </g>
      )}
    </svg>
  );
}

const DIAMOND = 'M0,-7 L5,0 L0,7 L-5,0 Z';
const ARROW_LOW = 'M-10,0 L2,-7 L2,7 Z';
const ARROW_HIGH = 'M10,0 L-2,-7 L-2,7 Z';

function Mark({ xPx, clamp }: { readonly xPx: number; readonly clamp: 'low' | 'high' | null }) {
  const path = clamp === 'low' ? ARROW_LOW : clamp === 'high' ? ARROW_HIGH : DIAMOND;
  return (
    <svg x={xPx} y="50%" overflow="visible" aria-hidden="true" focusable="false">
      <path className="deviation-mark" data-clamp={clamp ?? 'none'} d={path} />
    </svg>
  );
}

/** Matches are made anew with every edit; what a row draws decides whether it is drawn again. */
function drawsTheSame(before: Props, after: Props): boolean {
  const { match: old, ...oldRest } = before;
  const { match, ...rest } = after;
  const sameFigures =
    old.lengthMm === match.lengthMm && old.deviationMm === match.deviationMm && old.verdict === match.verdict;
  // Piece lengths follow from the pieces and the tube; a new primary object means that one of them changed.
  return (
    sameFigures &&
    Object.keys(rest).every((key) => rest[key as keyof typeof rest] === oldRest[key as keyof typeof oldRest])
  );
}

export const StripRow = memo(StripRowView, drawsTheSame);

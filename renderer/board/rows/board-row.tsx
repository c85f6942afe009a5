/** One primary on the board: its name, its pieces in small, its bar from the target to its end, and how it stands in words. */

import { type CSSProperties, memo } from 'react';
import { formatLength, type LengthStyle, type Primary, type PrimaryMatch } from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { buildingWords, primaryTitle, rowWords, verdictMark, verdictWords } from '../../ui/words/verdict-words.ts';
import type { DeviationScale } from '../scale/deviation-scale.ts';
import { Thumbnail } from '../strip/thumbnail.tsx';
import { type WholeScale, WholeStrip } from '../strip/whole-strip.tsx';
import { Bar, clearOf, wordsPlace } from './board-bar.tsx';
import type { ReadPiece } from './board-keys.ts';

export interface RowProps {
  readonly primary: Primary;
  readonly match: PrimaryMatch;
  /** As a move would leave it; null: no move is looked at that changes it. */
  readonly preview: PrimaryMatch | null;
  readonly deviation: DeviationScale;
  readonly band: { readonly minusMm: number; readonly plusMm: number };
  /** Length that a thumbnail is drawn to. */
  readonly spanMm: number;
  readonly style: LengthStyle;
  readonly hatchId: string;
  /** Of the row in hand, which shows its pieces whole; null for all others. */
  readonly whole: WholeScale | null;
  readonly isTabStop: boolean;
  readonly pieceId: string | null;
  readonly readIndex: number | null;
  readonly onRead: (read: ReadPiece | null) => void;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

function BoardRowView(props: RowProps) {
  const { primary, match, preview, style, whole, deviation } = props;
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list around it handles the keys of all rows
    <div
      className="board-row"
      role="option"
      aria-selected={whole !== null}
      tabIndex={props.isTabStop ? 0 : -1}
      data-primary={primary.id}
      onClick={() => props.onSelect(primary.id, null)}
    >
      <span className="board-name" title={rowTitle(match, style)}>
        {/^\d+$/.test(primary.name) ? <span className="visually-hidden">Primary </span> : null}
        {primary.name}
        <span className="visually-hidden">: {formatLength(match.lengthMm, style)},</span>
      </span>
      <Thumbnail
        primary={primary}
        pieceLengthsMm={match.pieceLengthsMm}
        spanMm={props.spanMm}
        hatchId={props.hatchId}
      />
      <div className="board-track">
        <Bar match={match} preview={preview} scale={deviation} band={props.band} />
        <Words match={match} preview={preview} style={style} scale={deviation} />
      </div>
      {whole === null ? null : <WholeStrip {...props} whole={whole} />}
    </div>
  );
}

/** Whole name, length, and why there is no verdict: for those who point at a name that was cut. */
function rowTitle(match: PrimaryMatch, style: LengthStyle): string {
  const building = match.building === null ? '' : `, ${buildingWords(match.building, style)}`;
  return `${primaryTitle(match.name)}: ${formatLength(match.lengthMm, style)}, ${verdictWords(match, style)}${building}`;
}

interface WordsProps extends Pick<RowProps, 'match' | 'preview' | 'style'> {
  readonly scale: DeviationScale;
}

/** At the bar's end, on the side away from the target. */
function Words({ match, preview, style, scale }: WordsProps) {
  const { side, atPx } = wordsPlace(match, scale);
  return (
    <>
      <span
        className="board-words board-now"
        data-verdict={match.verdict ?? 'none'}
        data-side={side}
        style={{ '--at': `${atPx}px` } as CSSProperties}
      >
        {match.verdict === null ? null : (
          <>
            <span className="verdict-mark" aria-hidden="true">
              {verdictMark(match.verdict).mark}
            </span>{' '}
          </>
        )}
        <FigureText text={rowWords(match, style)} />
      </span>
      {preview === null ? null : <Then side={side === 'left' ? 'right' : 'left'} {...{ preview, style, scale }} />}
    </>
  );
}

interface ThenProps {
  readonly preview: PrimaryMatch;
  readonly style: LengthStyle;
  readonly scale: DeviationScale;
  readonly side: 'left' | 'right';
}

/** How a move would leave it, on the side of the target where the words of now are not. */
function Then({ preview, style, scale, side }: ThenProps) {
  return (
    <span
      className="board-words board-then"
      data-side={side}
      style={{ '--at': `${clearOf(preview, side, scale)}px` } as CSSProperties}
    >
      then <FigureText text={rowWords(preview, style)} />
    </span>
  );
}

/** Matches are made anew with every edit; what a row draws decides whether it is drawn again. */
function drawsTheSame(before: RowProps, after: RowProps): boolean {
  const { match: old, ...oldRest } = before;
  const { match, ...rest } = after;
  const sameFigures =
    old.lengthMm === match.lengthMm &&
    old.deviationMm === match.deviationMm &&
    old.standing === match.standing &&
    old.verdict === match.verdict &&
    old.building?.kind === match.building?.kind;
  // Piece lengths follow from the pieces and the tube; a new primary object means that one of them changed.
  return (
    sameFigures &&
    Object.keys(rest).every((key) => rest[key as keyof typeof rest] === oldRest[key as keyof typeof oldRest])
  );
}

export const BoardRow = memo(BoardRowView, drawsTheSame);

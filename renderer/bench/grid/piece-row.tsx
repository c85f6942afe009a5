/** One piece as a row of the grid. */

import { memo, type ReactNode, useLayoutEffect, useRef } from 'react';
import {
  formatAngle,
  formatCut,
  formatLengthBare,
  type Length,
  type LengthStyle,
  mmOf,
  type Piece,
  typedText,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { pieceName } from '../../ui/words/piece-words.ts';
import { STATE_MARKS } from './piece-acts.ts';
import { COLUMNS, type Column, EDIT_NAMES, type EditPlace, editText, isEditable } from './piece-columns.ts';

/** Text being typed into a cell; `problem` says why it could not be taken. */
export interface CellEdit {
  readonly column: EditPlace;
  readonly text: string;
  /** Where the caret goes; null: all is selected. */
  readonly caret: number | null;
  readonly problem: string | null;
}

interface Props {
  readonly piece: Piece;
  readonly index: number;
  readonly runMm: number;
  readonly style: LengthStyle;
  /** Column that Tab comes to in this row; null in all rows but one. */
  readonly tabColumn: number | null;
  readonly isSelected: boolean;
  readonly isInsertPlace: boolean;
  /** Rows being dragged would go before or after this one. */
  readonly dropSide: 'above' | 'below' | null;
  readonly isOffShelf: boolean;
  /** What the move being looked at does to it; null: nothing. */
  readonly moveMark: string | null;
  /** As that move would leave it; null: as it is. */
  readonly after: Piece | null;
  /** The keypad is on the screen, so the system's own is not wanted. */
  readonly hasKeypad: boolean;
  readonly edit: CellEdit | null;
}

function PieceRowView(props: Props) {
  const { piece, index, edit, tabColumn } = props;
  return (
    <>
      <tr
        aria-rowindex={index + 2}
        aria-selected={props.isSelected}
        data-insert-place={props.isInsertPlace || undefined}
        data-drop={props.dropSide ?? undefined}
      >
        {COLUMNS.map((column, place) => {
          const Cell = column === 'number' ? 'th' : 'td';
          const isEdited = edit?.column === column;
          return (
            <Cell
              key={column}
              role={column === 'number' ? 'rowheader' : 'gridcell'}
              className={`cell cell-${column}`}
              data-row={index}
              data-column={place}
              tabIndex={tabColumn === place && !isEdited ? 0 : -1}
              aria-readonly={!isEditable(piece, column)}
            >
              {isEdited ? <CellField {...props} edit={edit} /> : cellWords(column, props)}
            </Cell>
          );
        })}
      </tr>
      {edit?.column === 'note' ? <NoteRow {...props} edit={edit} /> : null}
      {edit?.problem ? <ProblemRow pieceId={piece.id} problem={edit.problem} /> : null}
    </>
  );
}

type FieldProps = Pick<Props, 'piece' | 'index' | 'hasKeypad'> & { readonly edit: CellEdit };

/** The note of a piece is typed under its row, where there is room for a sentence. */
function NoteRow(props: FieldProps) {
  return (
    <tr className="note-row">
      <td colSpan={COLUMNS.length} data-row={props.index} data-column={COLUMNS.indexOf('piece')}>
        <span aria-hidden="true">Note of piece {props.index + 1}</span>
        <CellField {...props} />
      </td>
    </tr>
  );
}

/** Why the text above was not taken; brought into sight together with it. */
function ProblemRow({ pieceId, problem }: { readonly pieceId: string; readonly problem: string }) {
  const row = useRef<HTMLTableRowElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another reason is brought into sight anew
  useLayoutEffect(() => {
    row.current?.scrollIntoView({ block: 'nearest' });
    row.current?.previousElementSibling?.scrollIntoView({ block: 'nearest' });
  }, [problem]);
  return (
    <tr ref={row} className="problem-row">
      <td colSpan={COLUMNS.length}>
        <p id={problemId(pieceId)} className="field-problem" role="alert">
          <FigureText text={problem} />
        </p>
      </td>
    </tr>
  );
}

function problemId(pieceId: string): string {
  return `problem-${pieceId}`;
}

/** Not tied to state while typing: nothing is drawn again between one key and the next. */
function CellField({ piece, index, edit, hasKeypad }: FieldProps) {
  const field = useRef<HTMLInputElement>(null);
  const { caret } = edit;
  // Text that came back with its problem waits to be gone to; a field just begun takes the caret.
  const comesBack = useRef(edit.problem !== null).current;
  useLayoutEffect(() => {
    if (comesBack) return;
    field.current?.focus();
    if (caret === null) field.current?.select();
    else field.current?.setSelectionRange(caret, caret);
  }, [caret, comesBack]);
  return (
    <input
      ref={field}
      className="cell-field"
      aria-label={`${EDIT_NAMES[edit.column]} of piece ${index + 1}`}
      defaultValue={edit.text}
      data-piece={piece.id}
      data-edited={edit.column}
      inputMode={hasKeypad && edit.column !== 'note' ? 'none' : 'text'}
      autoComplete="off"
      spellCheck={false}
      maxLength={400}
      {...(edit.problem === null ? {} : { 'aria-invalid': true, 'aria-describedby': problemId(piece.id) })}
    />
  );
}

/** A padlock and the word. */
function LockMark() {
  return (
    <span className="lock-mark">
      {' '}
      <svg viewBox="0 0 12 14" aria-hidden="true" focusable="false">
        <path d="M1 6h10v7H1zM3.5 6V4a2.5 2.5 0 0 1 5 0v2" />
      </svg>{' '}
      locked
    </span>
  );
}

/** A size that somebody cuts to is shown as fine as it takes, and says so. */
function cutFigure(length: Length, style: LengthStyle): ReactNode {
  const { text, fineness } = formatCut(mmOf(length), style);
  if (fineness === 'shown') return <FigureText text={text} />;
  if (fineness === 'finer') {
    return (
      <span className="finer" title="Cut to this figure: it is finer than the others are shown">
        <FigureText text={text} />
      </span>
    );
  }
  return (
    <span title={`Exactly ${typedText(length)}; rounded here`}>
      ≈<FigureText text={text} />
    </span>
  );
}

/** A figure of a piece; while a move is looked at, the one as it is struck through and the one as it would be. */
function figureCell(column: 'size' | 'clr' | 'clock', { piece, after, style }: Props): ReactNode {
  const now = figureOf(column, piece, style);
  if (after === null || isSameFigure(column, piece, after)) return now;
  return (
    <>
      <del className="figure-before">{now}</del>
      <span className="visually-hidden"> then </span>{' '}
      <ins className="figure-after">{figureOf(column, after, style)}</ins>
    </>
  );
}

function figureOf(column: 'size' | 'clr' | 'clock', piece: Piece, style: LengthStyle): ReactNode {
  if (piece.kind === 'straight') return column === 'size' ? cutFigure(piece.length, style) : '';
  if (column === 'size') return formatAngle(piece.angleDeg);
  if (column === 'clr') return cutFigure(piece.clr, style);
  return piece.clockingDeg === null ? '–' : formatAngle(piece.clockingDeg);
}

function isSameFigure(column: 'size' | 'clr' | 'clock', now: Piece, after: Piece): boolean {
  if (now.kind === 'straight' || after.kind === 'straight') {
    if (now.kind !== after.kind) return false;
    return column !== 'size' || editText(now, 'size', ANY) === editText(after, 'size', ANY);
  }
  return editText(now, column, ANY) === editText(after, column, ANY);
}

/** For comparing two figures any unit will do. */
const ANY = { unit: 'mm', clr: { value: 0, unit: 'mm' } } as const;

function cellWords(column: Column, props: Props): ReactNode {
  const { piece, index, runMm, style, isOffShelf, moveMark } = props;
  switch (column) {
    case 'number':
      return index + 1;
    case 'piece':
      return (
        <>
          {pieceName(piece)}
          {isOffShelf ? <span className="off-shelf"> ✕ not on shelf</span> : null}
          {piece.locked ? <LockMark /> : null}
          {moveMark === null ? null : <span className="move-mark"> ▸ {moveMark}</span>}
          {piece.note === '' ? null : (
            <span className="piece-note" title={piece.note}>
              {piece.note}
            </span>
          )}
        </>
      );
    case 'size':
    case 'clr':
    case 'clock':
      return figureCell(column, props);
    case 'run':
      return <FigureText text={formatLengthBare(runMm, style)} />;
    case 'state':
      return (
        <>
          <span aria-hidden="true">{STATE_MARKS[piece.state]} </span>
          <span className="state-word">{piece.state}</span>
        </>
      );
  }
}

export const PieceRow = memo(PieceRowView);

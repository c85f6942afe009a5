/** One piece as a row of the grid. */

import { memo, type ReactNode, useLayoutEffect, useRef } from 'react';
import {
  formatAngle,
  formatLengthBare,
  type LengthStyle,
  mmOf,
  type Piece,
  type PieceState,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { pieceName } from '../../ui/words/piece-words.ts';
import { COLUMN_NAMES, COLUMNS, type Column, isEditable } from './piece-columns.ts';

/** Text being typed into a cell; `problem` says why it could not be taken. */
export interface CellEdit {
  readonly column: Column;
  readonly text: string;
  /** Typing began on the cell, so the caret goes to the end; else all is selected. */
  readonly isOverwriting: boolean;
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
  readonly isOffShelf: boolean;
  /** What the move being looked at, or just applied, does to it; null: nothing. */
  readonly moveMark: string | null;
  readonly edit: CellEdit | null;
}

/** Signs that say the state without colour: an open ring fills up as the piece comes along. */
const STATE_MARKS: Readonly<Record<PieceState, string>> = { planned: '○', cut: '◔', tacked: '◑', welded: '●' };

function PieceRowView(props: Props) {
  const { piece, index, edit, tabColumn } = props;
  return (
    <>
      <tr
        aria-rowindex={index + 2}
        aria-selected={props.isSelected}
        data-insert-place={props.isInsertPlace || undefined}
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
              {isEdited ? <CellField piece={piece} index={index} edit={edit} /> : cellWords(column, props)}
            </Cell>
          );
        })}
      </tr>
      {edit?.problem ? (
        <tr className="problem-row">
          <td colSpan={COLUMNS.length}>
            <p id={problemId(piece.id)} className="field-problem" role="alert">
              {edit.problem}
            </p>
          </td>
        </tr>
      ) : null}
    </>
  );
}

function problemId(pieceId: string): string {
  return `problem-${pieceId}`;
}

/** Not tied to state while typing: nothing is drawn again between one key and the next. */
function CellField({ piece, index, edit }: { readonly piece: Piece; readonly index: number; readonly edit: CellEdit }) {
  const field = useRef<HTMLInputElement>(null);
  const { isOverwriting } = edit;
  // Text that came back with its problem waits to be gone to; a field just begun takes the caret.
  const comesBack = useRef(edit.problem !== null).current;
  useLayoutEffect(() => {
    if (comesBack) return;
    field.current?.focus();
    if (isOverwriting) field.current?.setSelectionRange(field.current.value.length, field.current.value.length);
    else field.current?.select();
  }, [isOverwriting, comesBack]);
  return (
    <input
      ref={field}
      className="cell-field"
      aria-label={`${COLUMN_NAMES[edit.column]} of piece ${index + 1}`}
      defaultValue={edit.text}
      data-piece={piece.id}
      data-edited={edit.column}
      inputMode="text"
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

function lengthFigure(mm: number, style: LengthStyle): ReactNode {
  return <FigureText text={formatLengthBare(mm, style)} />;
}

function cellWords(column: Column, { piece, index, runMm, style, isOffShelf, moveMark }: Props): ReactNode {
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
        </>
      );
    case 'size':
      return piece.kind === 'straight' ? lengthFigure(mmOf(piece.length), style) : formatAngle(piece.angleDeg);
    case 'clr':
      return piece.kind === 'straight' ? '' : lengthFigure(mmOf(piece.clr), style);
    case 'clock':
      return piece.kind === 'straight' ? '' : piece.clockingDeg === null ? '–' : formatAngle(piece.clockingDeg);
    case 'run':
      return lengthFigure(runMm, style);
    case 'state':
      return (
        <>
          <span aria-hidden="true">{STATE_MARKS[piece.state]} </span>
          {piece.state}
        </>
      );
  }
}

export const PieceRow = memo(PieceRowView);

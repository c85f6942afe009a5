/** The pieces of one primary as a grid that is worked wholly from the keyboard. */

import * as d3 from 'd3';
import { type RefObject, useEffect, useImperativeHandle, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { type Header, type Piece, type StockItem, shelfMatch, tubeOf, unitOf } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { cellElement } from './grid-cell.ts';
import { gridEvents } from './grid-events.ts';
import type { Cell, PieceAct } from './grid-keys.ts';
import {
  act,
  beginKind,
  beginNote,
  type GridActs,
  type GridPress,
  type GridReach,
  type OpenMenu,
} from './grid-reach.ts';
import { COLUMN_NAMES, COLUMNS, type Column } from './piece-columns.ts';
import { PieceMenu } from './piece-menu.tsx';
import { PieceRow } from './piece-row.tsx';
import { selectedRows } from './row-selection.ts';
import { type CellEdits, useCellEdits } from './use-cell-edits.ts';
import { useGridFocus } from './use-grid-focus.ts';

interface Props extends GridActs {
  readonly header: Header;
  readonly pieceLengthsMm: readonly number[];
  readonly stock: readonly StockItem[] | null;
  readonly marks: ReadonlyMap<string, string>;
  /** Pieces as that move would leave them, by id. */
  readonly changed: ReadonlyMap<string, Piece>;
  readonly insertAfterId: string | null;
  readonly hasKeypad: boolean;
  readonly gridRef: RefObject<HTMLTableElement | null>;
  readonly handleRef: RefObject<GridHandle | null>;
  /** The angle of the bend in hand is to be taken by tape. */
  readonly onTape: () => void;
}

/** What buttons beside the grid begin in the row in hand. */
export interface GridHandle {
  readonly beginNote: () => void;
  readonly beginKind: (kind: Piece['kind']) => void;
}

const FIRST_CELL: Cell = { row: 0, column: 2 };

export function PieceGrid(props: Props) {
  const { session, header, primary, selection, gridRef } = props;
  const { pieces } = primary;
  const style = header.settings.display;
  const runsMm = useMemo(() => d3.cumsum(props.pieceLengthsMm), [props.pieceLengthsMm]);
  const cellEdits = useCellEdits(session, primary);
  const wantsFocus = useGridFocus({ ...props, cell: selection.cell });
  const press = useRef<GridPress | null>(null);
  const [menu, onMenu] = useState<OpenMenu | null>(null);
  const [dropBefore, onDropPlace] = useState<number | null>(null);
  useFieldCommits(session, gridRef, cellEdits);
  const reach: GridReach = { ...props, cellEdits, wantsFocus, press, onMenu, onDropPlace };
  useGridHandle(reach, props.handleRef);
  const tabCell = selection.cell ?? FIRST_CELL;
  const rows = selectedRows(selection, pieces);
  return (
    <>
      <table
        ref={gridRef}
        className="piece-grid"
        // biome-ignore lint/a11y/noNoninteractiveElementToInteractiveRole: the grid pattern of the W3C APG allows a table
        role="grid"
        aria-label={`Pieces of ${primaryTitle(primary.name)}`}
        aria-multiselectable="true"
        aria-readonly={props.isFrozen}
        aria-rowcount={pieces.length + 1}
        {...gridEvents(reach)}
      >
        <GridHead unit={unitOf(style)} isFrozen={props.isFrozen} />
        <tbody>
          {pieces.map((piece, index) => (
            <PieceRow
              key={piece.id}
              piece={piece}
              index={index}
              runMm={runsMm[index] ?? 0}
              style={style}
              tabColumn={tabCell.row === index ? tabCell.column : null}
              isSelected={rows.has(index)}
              isInsertPlace={piece.id === props.insertAfterId}
              dropSide={dropSideOf(index, dropBefore, pieces.length)}
              moveMark={props.marks.get(piece.id) ?? null}
              after={props.changed.get(piece.id) ?? null}
              isOffShelf={isOffShelf(piece, props)}
              hasKeypad={props.hasKeypad}
              edit={cellEdits.edits.get(piece.id) ?? null}
            />
          ))}
        </tbody>
      </table>
      {menu === null ? null : <OpenedMenu reach={reach} menu={menu} {...props} onClose={() => onMenu(null)} />}
    </>
  );
}

/** The line where dragged rows would go is drawn by the row below it, and past the last row by that row. */
function dropSideOf(row: number, dropBefore: number | null, rows: number): 'above' | 'below' | null {
  if (dropBefore === row) return 'above';
  return dropBefore === rows && row === rows - 1 ? 'below' : null;
}

function useGridHandle(reach: GridReach, handleRef: RefObject<GridHandle | null>): void {
  const { cell } = reach.selection;
  useImperativeHandle(handleRef, () => ({
    beginNote: () => {
      if (cell !== null) beginNote(reach, cell);
    },
    beginKind: (kind) => {
      if (cell !== null) beginKind(reach, cell, kind);
    },
  }));
}

interface OpenedMenuProps extends Pick<Props, 'gridRef' | 'onTape'> {
  readonly reach: GridReach;
  readonly menu: OpenMenu;
  readonly onClose: () => void;
}

/** The menu that is open, for the piece in hand and those selected with it. */
function OpenedMenu({ reach, menu, gridRef, onTape, onClose }: OpenedMenuProps) {
  const { primary, selection } = reach;
  const cell = selection.cell ?? menu.at;
  const piece = primary.pieces[cell.row];
  if (piece === undefined) return null;
  const rows = selectedRows(selection, primary.pieces);
  const doings = {
    onAct: (wanted: PieceAct) => act(reach, wanted),
    onNote: () => beginNote(reach, cell),
    onKind: (kind: Piece['kind']) => beginKind(reach, cell, kind),
    onTape,
  };
  return (
    <PieceMenu
      open={menu}
      cell={cellElement(gridRef.current, menu.at)}
      piece={piece}
      pieces={primary.pieces.filter((_piece, row) => rows.has(row))}
      doings={doings}
      onClose={onClose}
    />
  );
}

/** A shelf with nothing on it has not been taken stock of, and says nothing about a bend. */
function isOffShelf(piece: Piece, { stock, header, primary }: Props): boolean {
  if (piece.kind !== 'bend' || stock === null || stock.length === 0) return false;
  return shelfMatch(stock, piece, tubeOf(header, primary)) !== 'onShelf';
}

/** What stands in a field is taken when the window is about to close, and when the grid goes away. */
function useFieldCommits(
  session: HeaderSession,
  gridRef: RefObject<HTMLTableElement | null>,
  cellEdits: CellEdits,
): void {
  const commitAll = () => {
    const fields = gridRef.current?.querySelectorAll<HTMLInputElement>('input[data-piece]') ?? [];
    for (const field of fields) cellEdits.commit(field.dataset['piece'] ?? '', field.value);
  };
  const latest = useRef(commitAll);
  useEffect(() => {
    latest.current = commitAll;
  });
  useEffect(() => session.addCommitter(() => latest.current()), [session]);
  // Going to another primary takes the field away without a blur.
  useLayoutEffect(() => () => latest.current(), []);
}

/** Columns that show lengths; an angle among them has its own mark. */
const HAVE_LENGTHS: ReadonlySet<Column> = new Set(['size', 'clr', 'run']);

/** The unit stands once, in the heading of each column of lengths. */
function GridHead({ unit, isFrozen }: { readonly unit: string; readonly isFrozen: boolean }) {
  return (
    <thead>
      <tr aria-rowindex={1}>
        {COLUMNS.map((column) => (
          <th
            key={column}
            scope="col"
            className={`cell-${column}`}
            title={column === 'number' && !isFrozen ? 'Drag a number to move its row' : undefined}
          >
            {COLUMN_NAMES[column]}
            {HAVE_LENGTHS.has(column) ? <span className="column-unit"> ({unit})</span> : null}
          </th>
        ))}
      </tr>
    </thead>
  );
}

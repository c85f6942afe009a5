/** What the grid's events reach: the bench, the cells being typed into, the press of a pointer; and what all of them do alike. */

import type { RefObject } from 'react';
import { type Piece, type Primary, unitOf } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import type { Cell, PieceAct } from './grid-keys.ts';
import { COLUMNS, textForKind } from './piece-columns.ts';
import { onlyCell, type RowSelection } from './row-selection.ts';
import type { CellEdits } from './use-cell-edits.ts';

export interface GridActs {
  readonly session: HeaderSession;
  readonly primary: Primary;
  readonly selection: RowSelection;
  /** A finished header can be looked at and copied from. */
  readonly isFrozen: boolean;
  readonly onSelect: (selection: RowSelection) => void;
  readonly onAct: (act: PieceAct) => void;
  /** On to the entry line. */
  readonly onLeave: () => void;
  /** Rows of a spreadsheet. */
  readonly onPaste: (text: string) => void;
  /** The rows selected as tab-separated text; null when there are none. `isCut`: they are taken out, not copied. */
  readonly copyText: (isCut: boolean) => string | null;
}

/** Which menu is open, and where: at the pointer, or at its cell. */
export interface OpenMenu {
  readonly kind: 'state' | 'piece';
  readonly at: Cell;
  readonly point: { readonly x: number; readonly y: number } | null;
}

export interface GridReach extends GridActs {
  readonly cellEdits: CellEdits;
  /** Set, the cell in hand is focused after the next drawing. */
  readonly wantsFocus: RefObject<boolean>;
  readonly press: RefObject<GridPress | null>;
  readonly onMenu: (menu: OpenMenu) => void;
  /** Where rows being dragged would go: before this row; null: they are not dragged. */
  readonly onDropPlace: (before: number | null) => void;
}

/** A pointer that went down on the grid, until the click that ends it. */
export interface GridPress {
  readonly at: Cell;
  /** The cell in hand before it. */
  readonly inHand: Cell | null;
  /** `draw` selects rows, `carry` moves them; `finger` scrolls; `other` is another button's, or was done with at once. */
  readonly kind: 'draw' | 'carry' | 'finger' | 'other';
  readonly x: number;
  readonly y: number;
  readonly hold: ReturnType<typeof setTimeout> | undefined;
  isDown: boolean;
  /** It has become a drag or opened a menu, so that the click at its end means nothing. */
  isSpent: boolean;
  dropBefore: number | null;
}

/** To one cell, and nothing else is selected. */
export function go(reach: GridReach, to: Cell): void {
  reach.wantsFocus.current = true;
  reach.onSelect(onlyCell(to));
}

/** Edits a cell; one of the state column opens its menu. `text` null: what is there. */
export function edit(reach: GridReach, at: Cell, text: string | null): void {
  const piece = reach.primary.pieces[at.row];
  const column = COLUMNS[at.column];
  if (piece === undefined || column === undefined || reach.isFrozen) return;
  if (column === 'state') reach.onMenu({ kind: 'state', at, point: null });
  else reach.cellEdits.begin(piece.id, column, text === null ? null : { text, caret: text.length });
}

/** Asks the bench for it, with the focus kept on the cell in hand. */
export function act(reach: GridReach, wanted: PieceAct): void {
  if (reach.isFrozen) return;
  reach.wantsFocus.current = wanted.kind !== 'insert';
  reach.onAct(wanted);
}

export function beginNote({ primary, cellEdits, isFrozen }: GridReach, { row }: Cell): void {
  const piece = primary.pieces[row];
  if (piece !== undefined && !isFrozen) cellEdits.begin(piece.id, 'note', null);
}

/** Begins to change a piece into another kind, in its Piece cell: what it keeps stands there, the rest is typed. */
export function beginKind(
  { session, primary, cellEdits, isFrozen }: GridReach,
  { row }: Cell,
  kind: Piece['kind'],
): void {
  const piece = primary.pieces[row];
  if (piece === undefined || isFrozen) return;
  const { display, clr } = session.getState().header.settings;
  cellEdits.begin(piece.id, 'piece', textForKind(piece, kind, { unit: unitOf(display), clr }));
}
